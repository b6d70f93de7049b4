const side = 8

/**
 * By what factor residuals that hang together make a fit's variance larger than independent ones would:
 * the variance of means over patches of 8 × 8, against what independent residuals would give; 1 at least.
 *
 * @param residuals rows of `across` numbers; NaN where there is none
 */
export function patchInflation(residuals: ArrayLike<number>, across: number): number {
  const down = Math.floor(residuals.length / across)
  let [squares, count, patchSquares, patches] = [0, 0, 0, 0]
  for (let top = 0; top + side <= down; top += side)
    for (let left = 0; left + side <= across; left += side) {
      let [sum, n] = [0, 0]
      for (let y = top; y < top + side; y++)
        for (let x = left; x < left + side; x++) {
          const value = residuals[y * across + x]!
          if (!Number.isFinite(value)) continue
          sum += value
          n++
          squares += value * value
        }
      if (n === 0) continue
      count += n
      patchSquares += (sum * sum) / n
      patches++
    }
  return patches > 0 && squares > 0 ? Math.max(1, patchSquares / patches / (squares / count)) : 1
}
