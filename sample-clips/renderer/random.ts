import type { Vec3 } from './vector.ts'

/** Seeded chance: the same seed gives the same pictures on every machine. */
export type Random = {
  /** Uniform in [0, 1). */
  next(): number
  between(low: number, high: number): number
  /** Normal, mean 0, standard deviation 1. */
  gauss(): number
  pick<T>(from: readonly T[]): T
  /** Uniform over the sphere. */
  direction(): Vec3
}

/** Chris Doty-Humphrey's sfc32, its state filled from the words of `seed` (FNV-1a). */
export function randomFrom(seed: string | number): Random {
  let hash = 0x811c9dc5
  for (const letter of String(seed)) hash = Math.imul(hash ^ letter.charCodeAt(0), 0x01000193)
  let [a, b, c, counter] = [hash | 0, 0x9e3779b9 | 0, 0x243f6a88 | 0, 1]
  const next = () => {
    const sum = (a + b + counter) | 0
    counter = (counter + 1) | 0
    a = b ^ (b >>> 9)
    b = (c + (c << 3)) | 0
    c = ((c << 21) | (c >>> 11)) + sum
    return (sum >>> 0) / 4294967296
  }
  for (let i = 0; i < 16; i++) next()
  const between = (low: number, high: number) => low + (high - low) * next()
  const gauss = () => Math.sqrt(-2 * Math.log(1 - next())) * Math.cos(2 * Math.PI * next())
  const pick = <T>(from: readonly T[]): T => from[Math.floor(next() * from.length)]!
  const direction = (): Vec3 => {
    const z = between(-1, 1)
    const turn = between(0, 2 * Math.PI)
    const ring = Math.sqrt(1 - z * z)
    return [ring * Math.cos(turn), ring * Math.sin(turn), z]
  }
  return { next, between, gauss, pick, direction }
}
