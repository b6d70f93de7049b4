const blockPx = 8

/**
 * How much one small grey picture differs from another: the mean difference, in grey levels, of the block that
 * changed most (blocks at the edges count as whole ones). That is whatever moves; where nothing moves, it is noise.
 */
export function changeBetween(before: Uint8Array, after: Uint8Array, widthPx: number): number {
  const across = Math.ceil(widthPx / blockPx)
  const sums = new Float64Array(across)
  let most = 0
  for (let i = 0, y = 1; i < after.length; y++) {
    for (let x = 0; x < widthPx; x++, i++) sums[x >> 3]! += Math.abs(after[i]! - before[i]!)
    if (y % blockPx > 0 && i < after.length) continue
    for (const sum of sums) most = Math.max(most, sum)
    sums.fill(0)
  }
  return most / blockPx ** 2
}
