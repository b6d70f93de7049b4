/**
 * Puts the value of rank `rank` (0 is the smallest) of `values[from]` to the end at its place, the smaller ones before
 * it and the larger behind, and gives it. For a middle of many, without sorting all. Reorders `values`.
 * Source: Hoare, "Algorithm 65: Find", Communications of the ACM 4 (1961) 321.
 * @example placeRank(Float64Array.of(9, 1, 5, 3), 2) // 5
 */
export function placeRank(values: Float64Array, rank: number, from = 0): number {
  let [left, right] = [from, values.length - 1]
  while (left < right) {
    const pivot = values[(left + right) >> 1]!
    let [i, k] = [left, right]
    while (i <= k) {
      while (values[i]! < pivot) i++
      while (values[k]! > pivot) k--
      if (i > k) break
      const value = values[i]!
      values[i++] = values[k]!
      values[k--] = value
    }
    if (rank <= k) right = k
    else if (rank >= i) left = i
    else break
  }
  return values[rank]!
}
