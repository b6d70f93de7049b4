/** Positions 0 … length − 1 so that any beginning of the list is spread over all of it (van der Corput, base 2). */
function spreadOrder(length: number): number[] {
  const turnedRound = (i: number) => {
    let [value, weight] = [0, 0.5]
    for (let rest = i; rest > 0; rest >>= 1, weight /= 2) value += (rest & 1) * weight
    return value
  }
  const size = 2 ** Math.ceil(Math.log2(Math.max(length, 1)))
  return Array.from({ length: size }, (_, i) => Math.round(turnedRound(i) * size)).filter(i => i < length)
}

/**
 * Which marks to show again: at most `count`, taken from the hits in turn, and within a hit spread over its
 * flight. The same marks give the same choice, and a smaller choice is the beginning of a larger one: two
 * people who do the study of a session meet the same marks.
 *
 * @param byHit the marks that could be shown, one list a hit, in order of time
 */
export function chooseItems<T>(byHit: readonly (readonly T[])[], count: number): T[] {
  const queues = spreadOrder(byHit.length).map(i => spreadOrder(byHit[i]!.length).map(j => byHit[i]![j]!))
  const longest = Math.max(0, ...queues.map(queue => queue.length))
  return Array.from({ length: longest }, (_, round) => queues.flatMap(queue => queue.slice(round, round + 1)))
    .flat()
    .slice(0, count)
}

/**
 * The order in which items are shown, each twice, by chance. All come once before any comes again, and
 * over half of the items stand between the two, so that the first click is no longer remembered.
 *
 * @param random evenly in [0, 1), as Math.random; passed in, so that an order can be had again
 */
export function planStudy<T>(items: readonly T[], random: () => number): T[] {
  const first = shuffled(items, random)
  const half = Math.ceil(first.length / 2)
  return [...first, ...shuffled(first.slice(0, half), random), ...shuffled(first.slice(half), random)]
}

/** Every order equally likely: R. A. Fisher and F. Yates, Statistical Tables (1938), example 12. */
function shuffled<T>(items: readonly T[], random: () => number): T[] {
  const left = [...items]
  return Array.from({ length: left.length }, () => left.splice(Math.floor(random() * left.length), 1)[0]!)
}
