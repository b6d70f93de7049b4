import { isConnectionString, isPlaceOnly, placeOfString } from '../export/postgres-place.ts'

/**
 * Connection strings that were used since the program was started, in memory alone: a server's place, as
 * it is remembered, stands for the string that led to it.
 */
export function knownServers() {
  const strings = new Map<string, string>()
  return {
    /** What to open for the words of a person: a path as it is, a server by its whole string. */
    wholeOf(words: string): string {
      if (!isConnectionString(words)) return words
      const place = placeOfString(words)
      const known = isPlaceOnly(words) ? (strings.get(place) ?? words) : words
      strings.set(place, known)
      return known
    },
  }
}
export type KnownServers = ReturnType<typeof knownServers>
