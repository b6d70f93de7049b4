import { readFileSync } from 'node:fs'
import { join } from 'node:path'
import { samples } from './served.ts'

type Point = { xPx: number; yPx: number }
export type TruthFrame = Point & {
  index: number
  radiusPx: number
  marks: Record<string, Point & { visible: boolean; facing: number }>
}
export type TruthFlight = { rpm: number; firstFrame: number; lastFrame: number; frames: TruthFrame[] }

/** What was put into a sample when it was rendered: its flights, and the ball in each of their frames. */
export const flightsOf = (clip: string) =>
  (JSON.parse(readFileSync(join(samples, `${clip}.truth.json`), 'utf8')) as { flights: TruthFlight[] })
    .flights

/** The first of them, with a way to its frames. */
export function flightOf(clip: string): TruthFlight & { at: (index: number) => TruthFrame } {
  const flight = flightsOf(clip)[0]!
  return { ...flight, at: index => flight.frames.find(frame => frame.index === index)! }
}
