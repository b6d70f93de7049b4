/** Patches of pattern on the whole disc that differ on their own: what one correlation rests on. */
export const patches = 24

/**
 * Evidence that two patterns are the same: the log likelihood of a correlation c between `count` pairs of normal
 * values, −count/2·ln(1 − c²), against none; negative for c < 0.
 */
export function evidenceIn(correlation: number, count: number): number {
  const evidence = -0.5 * count * Math.log1p(-Math.min(correlation ** 2, 0.98))
  return correlation < 0 ? -evidence : evidence
}
