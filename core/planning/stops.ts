/**
 * Stops of light that an exposure needs more than another, the same picture wanted: log₂ of their ratio, 1 for
 * half the time (exposure value in the sense of ISO 2720:1974; from memory). Negative: less.
 */
export const stopsBetween = (fromSeconds: number, toSeconds: number): number =>
  Math.log2(fromSeconds / toSeconds)

/** `2 stops more light`, `1 stop less light`, to a third of a stop as cameras are set. */
export function stopsInWords(stops: number): string {
  const thirds = Math.round(Math.abs(stops) * 3)
  if (thirds === 0) return 'no more light'
  const [whole, part] = [Math.floor(thirds / 3), ['', '⅓', '⅔'][thirds % 3]!]
  const amount = `${whole > 0 ? whole : ''}${part}`
  return `${amount} ${thirds > 3 ? 'stops' : 'stop'} ${stops > 0 ? 'more' : 'less'} light`
}
