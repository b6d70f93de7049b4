import { WhorlError } from '../../core/contract/problem.ts'
import { nearNames } from '../../core/ratings/near-names.ts'

/** What can be named: a paddle in a set-up; without a figure it has only hits that are held back. */
type Nameable = { paddle: string; setUp: string; figure: unknown; heldBack: number }

const labelOf = ({ paddle, setUp }: Pick<Nameable, 'paddle' | 'setUp'>) => `${paddle} / ${setUp}`

/**
 * The paddles that were named, each with the words it was named by. Names are matched to the letter; one
 * that only almost matches is proposed, never taken. A paddle without a set-up is its stock one, or the
 * only one that there is.
 *
 * @throws `paddle-unknown`, `paddle-unrated`, `set-up-unclear`; `usage` for one named twice
 */
export function pickEntrants<T extends Nameable>(
  words: readonly string[],
  entrants: readonly T[],
): { label: string; one: T }[] {
  const picked = words.map(label => ({ label, one: pick(label, entrants) }))
  const twice = picked.find(({ one }, i) => picked.findIndex(other => other.one === one) !== i)
  if (twice !== undefined)
    throw new WhorlError('usage', {
      what: `“${labelOf(twice.one)}” is named twice.`,
      hint: 'Name each paddle once; a set-up of it is named as "NAME / SET-UP".',
    })
  return picked
}

function pick<T extends Nameable>(label: string, entrants: readonly T[]): T {
  const one = entrants.find(entrant => labelOf(entrant) === label) ?? byPaddle(label, entrants)
  if (one === undefined) {
    const names = entrants.flatMap(entrant => [entrant.paddle, labelOf(entrant)])
    throw new WhorlError('paddle-unknown', { name: label, near: inWords(nearNames(label, names)) })
  }
  if (one.figure === null) throw new WhorlError('paddle-unrated', { name: labelOf(one), hits: one.heldBack })
  return one
}

function byPaddle<T extends Nameable>(paddle: string, entrants: readonly T[]): T | undefined {
  const setUps = entrants.filter(entrant => entrant.paddle === paddle)
  const one = setUps.length === 1 ? setUps[0] : setUps.find(entrant => entrant.setUp === 'stock')
  if (one === undefined && setUps.length > 0)
    throw new WhorlError('set-up-unclear', { name: paddle, setUps: inWords(setUps.map(labelOf)) })
  return one
}

const inWords = (names: readonly string[]) => names.map(name => `“${name}”`).join(', ')
