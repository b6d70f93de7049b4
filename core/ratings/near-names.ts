import { distance } from 'fastest-levenshtein'

const most = 3

/**
 * The names that a person may have meant, nearest first: the same but for case and spaces, beginning alike,
 * or a few letters away. Only ever proposed: a name is matched exactly or not at all.
 */
export function nearNames(given: string, names: readonly string[]): string[] {
  const plain = plainOf(given)
  return [...new Set(names)]
    .map(name => ({ name, steps: stepsTo(plain, plainOf(name)) }))
    .filter(({ steps }) => steps <= Math.max(2, plain.length / 3))
    .toSorted((a, b) => a.steps - b.steps || (a.name < b.name ? -1 : 1))
    .slice(0, most)
    .map(({ name }) => name)
}

/** Letters to change, add or drop; one step where a name goes on after the given words. */
const stepsTo = (plain: string, name: string): number =>
  name === plain ? 0 : plain !== '' && name.startsWith(plain) ? 1 : distance(plain, name)

const plainOf = (name: string): string => name.normalize('NFKC').toLowerCase().replace(/\s+/g, ' ').trim()
