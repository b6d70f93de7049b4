const across = 4
const down = 3

/** Black holds no light to flicker. */
const darkest = 4
/** A pixel that changes by more moved: this part of its brightness, and grey levels for noise. */
const moved = { part: 0.15, levels: 8 }
/** A part of the picture tells of the light when so much of it stands still. */
const leastStill = 1 / 4

/**
 * By what share the light of each of 4 × 3 parts changed from one small grey picture to the next, by the pixels
 * that did not move; parts that move nearly whole are left out.
 */
export function lightChanges(before: Uint8Array, after: Uint8Array, widthPx: number): number[] {
  const heightPx = after.length / widthPx
  const [was, is, still, all] = Array.from({ length: 4 }, () => new Float64Array(across * down)) as [
    Float64Array,
    Float64Array,
    Float64Array,
    Float64Array,
  ]
  for (let y = 0, i = 0; y < heightPx; y++) {
    const row = Math.floor((y * down) / heightPx) * across
    for (let x = 0; x < widthPx; x++, i++) {
      const part = row + Math.floor((x * across) / widthPx)
      all[part]!++
      const [a, b] = [before[i]!, after[i]!]
      if (Math.abs(b - a) > moved.part * Math.max(a, b) + moved.levels) continue
      still[part]!++
      was[part]! += a
      is[part]! += b
    }
  }
  return [...all.keys()].flatMap(part => {
    if (still[part]! < leastStill * all[part]!) return []
    const lit = Math.min(was[part]!, is[part]!) > darkest * still[part]!
    return [lit ? Math.abs(Math.log(is[part]! / was[part]!)) : 0]
  })
}

/** By what share the light changes from one picture to the next, typically: a median over parts, then over the clip. */
export const flickerOf = (changes: readonly number[][]): number => median(changes.map(median))

const median = (values: number[]): number => values.toSorted((a, b) => a - b)[values.length >> 1] ?? 0
