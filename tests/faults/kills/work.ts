import type { Edit } from '../../../core/contract/bench.ts'

/** What the host is given to do, so that what it left can be held against it. */
export const markedFrames = 12
const seen = (number: number) => ({ xPx: 480 + ((number * 37) % 101) / 101, yPx: 270 })

/** The click by its number, from 1: the frames of the hit in turn, each time at another place. */
export const clickNumber = (number: number): Edit => ({
  kind: 'place-sighting',
  sighting: { kind: 'point', frame: number % markedFrames, mark: 'logo', ...seen(number) },
})

/** Each round of writing has a day of its own, which every row of the target says. */
export const dayOfRound = (round: number): string =>
  new Date(Date.UTC(2020, 0, 1 + round)).toISOString().slice(0, 10)
