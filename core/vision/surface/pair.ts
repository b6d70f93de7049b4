import { type Rotation, rotationFromVector, turnedBack } from '../../geometry/rotation.ts'
import { scaled, type Vector } from '../../geometry/vector.ts'
import type { Disc } from './disc.ts'
import type { Sight } from './sights.ts'
import type { Sheets } from './textures.ts'

/** A place counts in a frame when it lies at least this far in front of the rim (cosine). */
export const facing = 0.42

/** The turn from view axes of frame i to those of frame j: V_jᵀ·Rot(ω·(t_j − t_i))·V_i. */
export function turnBetween(from: Sight, to: Sight, rotation: Vector): Rotation {
  const r = rotationFromVector(scaled(rotation, to.timeSeconds - from.timeSeconds))
  return product(transposed(to.toCamera), product(r, from.toCamera))
}

export function product(a: Rotation, b: Rotation): Rotation {
  const c = new Array(9) as number[]
  for (let i = 0; i < 9; i++) {
    const row = 3 * Math.floor(i / 3)
    const column = i % 3
    c[i] = a[row]! * b[column]! + a[row + 1]! * b[column + 3]! + a[row + 2]! * b[column + 6]!
  }
  return c as unknown as Rotation
}
export const transposed = (r: Rotation): Rotation => [r[0], r[3], r[6], r[1], r[4], r[7], r[2], r[5], r[8]]

/** What one place of frame i finds in frame j. */
export type Meeting = {
  /** Node of frame i, as a number within the disc. */
  node: number
  /** Where it is seen in frame j, view axes. */
  x: number
  y: number
  z: number
  /** Pattern of frame j there, and its slope by x and y (ball radii). */
  value: number
  slopeX: number
  slopeY: number
}

/**
 * Walks over the places of frame i that frame j shows too. `stride` takes every so many-th node.
 *
 * With a rolling shutter a row at y was seen shear·y later than the middle's: a place p is seen in frame j
 * after turning on for dt = shear_j·y' − shear_i·y more: p' = p₀ + dt·ω × p₀, solved for y' (which it
 * contains linearly).
 */
export function meet(
  { disc, values }: Sheets,
  sights: readonly Sight[],
  i: number,
  j: number,
  rotation: Vector,
  stride: number,
  at: (m: Meeting) => void,
): void {
  const r = turnBetween(sights[i]!, sights[j]!, rotation)
  const sheet = values[j]!
  const w = turnedBack(sights[j]!.toCamera, rotation)
  const [shearI, shearJ] = [sights[i]!.shearSeconds, sights[j]!.shearSeconds]
  const isSheared = shearI !== 0 || shearJ !== 0
  const m: Meeting = { node: 0, x: 0, y: 0, z: 0, value: 0, slopeX: 0, slopeY: 0 }
  const { half, size } = disc
  for (let n = (i + j) % stride; n < disc.node.length; n += stride) {
    const px = disc.x[n]!
    const py = disc.y[n]!
    const pz = disc.z[n]!
    let x = r[0] * px + r[1] * py + r[2] * pz
    let y = r[3] * px + r[4] * py + r[5] * pz
    let z = r[6] * px + r[7] * py + r[8] * pz
    if (isSheared) {
      const wx = w[1] * z - w[2] * y
      const wy = w[2] * x - w[0] * z
      const wz = w[0] * y - w[1] * x
      const down = (y - shearI * py * wy) / (1 - shearJ * wy)
      const dt = shearJ * down - shearI * py
      const norm = 1 / Math.sqrt((x + dt * wx) ** 2 + (y + dt * wy) ** 2 + (z + dt * wz) ** 2)
      x = (x + dt * wx) * norm
      y = (y + dt * wy) * norm
      z = (z + dt * wz) * norm
    }
    if (z > -facing) continue
    const u = (x + 1) * half
    const v = (y + 1) * half
    const column = u | 0
    const row = v | 0
    const a = u - column
    const b = v - row
    const k = row * size + column
    const t00 = sheet[k]!
    const t10 = sheet[k + 1]!
    const t01 = sheet[k + size]!
    const t11 = sheet[k + size + 1]!
    const top = t00 + a * (t10 - t00)
    const bottom = t01 + a * (t11 - t01)
    m.node = n
    m.x = x
    m.y = y
    m.z = z
    m.value = top + b * (bottom - top)
    m.slopeX = half * (t10 - t00 + b * (t11 - t01 - t10 + t00))
    m.slopeY = half * (bottom - top)
    at(m)
  }
}

/** Weight of a place by how squarely both frames look at it. */
export const squarely = (disc: Disc, m: Meeting): number => disc.z[m.node]! * m.z
