import { distance } from 'fastest-levenshtein'
import { nearNames } from './near-names.ts'

/**
 * Finds, among names, those that may be the same paddle written in another way: near names with the same
 * numbers in them (another number is another model), one letter apart, two where the name is long.
 */
export function almostSameNames(names: readonly string[]): (given: string) => string[] {
  const byNumbers = new Map<string, string[]>()
  for (const name of names) byNumbers.set(numbersIn(name), [...(byNumbers.get(numbersIn(name)) ?? []), name])
  return given => {
    const bare = bareOf(given)
    const most = bare.length < 10 ? 1 : 2
    const there = byNumbers.get(numbersIn(given)) ?? []
    return nearNames(given, there).filter(name => distance(bare, bareOf(name)) <= most)
  }
}

const numbersIn = (name: string): string => (name.normalize('NFKC').match(/\d+/g) ?? []).join(' ')
const bareOf = (name: string): string =>
  name
    .normalize('NFKC')
    .toLowerCase()
    .replace(/[^\p{L}\p{N}]/gu, '')
