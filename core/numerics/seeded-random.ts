/** Numbers from 0 to below 1, even over the interval. */
export type Random = () => number

/**
 * A generator that gives the same numbers for the same seed, so that a figure drawn with it can be had
 * again. Good enough for a bootstrap; not for secrets.
 *
 * Source: T. Ettinger, mulberry32 (public domain).
 */
export function seededRandom(seed: number): Random {
  let state = seed
  return () => {
    state = (state + 0x6d2b79f5) | 0
    let t = Math.imul(state ^ (state >>> 15), 1 | state)
    t = (t + Math.imul(t ^ (t >>> 7), 61 | t)) ^ t
    return ((t ^ (t >>> 14)) >>> 0) / 2 ** 32
  }
}
