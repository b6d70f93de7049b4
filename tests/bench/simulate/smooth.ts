import { inverseOf } from './dense.ts'

/**
 * What of an outline error, given frame by frame, stays in the smooth path through all outlines: its projection
 * on parabolas in time, for the centre one power more from 25 frames on, and all of it below five.
 */
export function smoothed(error: number[], seconds: number[]): { centre: number[]; radius: number[] } {
  const n = error.length
  if (n < 5) return { centre: error, radius: error }
  return { centre: projected(error, seconds, n < 25 ? 2 : 3), radius: projected(error, seconds, 2) }
}

function projected(values: number[], seconds: number[], degree: number): number[] {
  const middle = (seconds[0]! + seconds.at(-1)!) / 2
  const half = (seconds.at(-1)! - seconds[0]!) / 2
  const basis = Array.from({ length: degree + 1 }, (_, k) => seconds.map(t => ((t - middle) / half) ** k))
  const inner = (a: number[], b: number[]) => a.reduce((sum, x, i) => sum + x * b[i]!, 0)
  const p = degree + 1
  const inverse = inverseOf(
    basis.flatMap(a => basis.map(b => inner(a, b))),
    p,
  )!
  const products = basis.map(a => inner(a, values))
  const weights = basis.map((_, i) => products.reduce((sum, x, k) => sum + inverse[i * p + k]! * x, 0))
  return seconds.map((_, i) => basis.reduce((sum, row, k) => sum + weights[k]! * row[i]!, 0))
}
