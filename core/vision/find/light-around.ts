import { median } from '../../numerics/median.ts'
import { nonNegativeLeastSquares } from '../../numerics/non-negative-least-squares.ts'

/** Far lamps spread evenly over all directions, on Fibonacci's spiral. */
export const lamps = 96
const towards = Array.from({ length: lamps }, (_, i) => {
  const z = 1 - (2 * (i + 0.5)) / lamps
  const turn = i * Math.PI * (3 - Math.sqrt(5))
  const off = Math.sqrt(1 - z * z)
  return [off * Math.cos(turn), off * Math.sin(turn), z] as const
})
/** How strongly lamps are held to nothing, against one well seen place: found by trying on rendered clips. */
const held = 0.004
const rounds = 5
/** Places off by more than so many times the usual count less. */
const corner = 2

/** What each lamp at strength 1 would add to the light of a matt ball at a place of its disc (radii from its middle). */
export function addLight(row: Float64Array, x: number, y: number, weight: number): void {
  const z = Math.sqrt(Math.max(0, 1 - x * x - y * y))
  for (let j = 0; j < lamps; j++) {
    const [lx, ly, lz] = towards[j]!
    // The ball's side to the camera looks along −z.
    const cosine = x * lx + y * ly - z * lz
    if (cosine > 0) row[j]! += weight * cosine
  }
}

/** Light at a place whose `addLight` row is given, from the lamps' strengths. */
export function lightBy(row: Float64Array, strengths: Float64Array): number {
  let sum = 0
  for (let j = 0; j < lamps; j++) sum += row[j]! * strengths[j]!
  return sum
}

export type LitPlace = { row: Float64Array; light: number; weight: number }

/**
 * Strengths of the lamps that explain the light of a matt, round ball's places; places that are no shell (a hole, a
 * print, a gloss) lose weight. Whatever lights it, such a ball looks like a mixture of far lamps none of which takes light
 * away, and that is what carries on to the rim, where nothing is seen well.
 *
 * Source: Belhumeur and Kriegman, What is the set of images of an object under all possible illumination conditions?,
 * IJCV 28 (1998), p. 245 (from memory).
 */
export function lightAround(places: readonly LitPlace[]): Float64Array {
  // Lamps of strength s all around light every place by s·lamps/4: the mean of a cosine over its half sphere, halved.
  let strengths = new Float64Array(lamps).fill((4 * median(places.map(p => p.light))) / lamps)
  for (let round = 0; round < rounds; round++) {
    const left = places.map(({ row, light }) => light - lightBy(row, strengths))
    const scale = Math.max(1.4826 * median(left.map(Math.abs)), 0.003)
    const a = new Float64Array(lamps * lamps)
    const b = new Float64Array(lamps)
    places.forEach(({ row, light, weight: given }, i) => {
      const far = Math.abs(left[i]!) / scale / corner
      const weight = round === 0 || far < 1 ? given : given / far ** 2
      for (let p = 0; p < lamps; p++) {
        const own = weight * row[p]!
        if (own === 0) continue
        b[p]! += own * light
        for (let q = 0; q <= p; q++) a[p * lamps + q]! += own * row[q]!
      }
    })
    for (let p = 0; p < lamps; p++) {
      a[p * lamps + p]! += held * places.length
      for (let q = 0; q < p; q++) a[q * lamps + p] = a[p * lamps + q]!
    }
    strengths = Float64Array.from(nonNegativeLeastSquares(a, b, strengths))
  }
  return strengths
}
