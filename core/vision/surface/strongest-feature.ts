import { pixelOf } from '../../geometry/ball-view.ts'
import { rotationFromVector, turned, turnedBack } from '../../geometry/rotation.ts'
import { scaled, type Vector } from '../../geometry/vector.ts'
import type { Pointed } from '../propose.ts'
import type { Solution } from './solve.ts'
import type { SurfaceInput } from './surface-input.ts'
import { type Sheets, softened } from './textures.ts'

/** About as wide as a hole, so that a whole one counts for more than an edge. */
const half = 10
const width = 0.1
const places = 1500
/** Only what is seen this squarely (cosine) counts. */
const facing = 0.6

/**
 * The place on the ball that stands out most, over all frames that show it squarely, and where it is seen best:
 * what a person would pick as a mark. Null when no place is seen squarely in three frames or more.
 */
export function strongestFeature(input: SurfaceInput, sheets: Sheets, solution: Solution): Pointed | null {
  const { disc, values } = softened(sheets, half, width)
  const { sights, rotation } = solution
  const poses = sights.map(({ timeSeconds }) => rotationFromVector(scaled(rotation, timeSeconds)))
  let best = { strength: 0, own: null as Vector | null }
  for (let k = 0; k < places; k++) {
    const own = spread(k)
    let total = 0
    let seen = 0
    sights.forEach(({ toCamera }, i) => {
      const [x, y, z] = turnedBack(toCamera, turned(poses[i]!, own))
      if (z > -facing) return
      total += values[i]![Math.round((y + 1) * half) * disc.size + Math.round((x + 1) * half)]!
      seen++
    })
    const strength = seen < 3 ? 0 : total / Math.sqrt(seen)
    if (strength > best.strength) best = { strength, own }
  }
  const { own } = best
  if (!own) return null
  const looks = sights.map(({ toCamera }, i) => turnedBack(toCamera, turned(poses[i]!, own)))
  const depths = looks.map(look => look[2])
  const i = depths.indexOf(Math.min(...depths))
  const { view, timeSeconds, shearSeconds } = sights[i]!
  const seenAt = rotationFromVector(scaled(rotation, timeSeconds + shearSeconds * looks[i]![1]))
  const [xPx, yPx] = pixelOf(view, turned(seenAt, own))
  return { frame: input.frames[i]!.index, xPx, yPx }
}

/** The k-th of many places spread evenly over a sphere, on a spiral whose turns are the golden angle. */
function spread(k: number): Vector {
  const z = 1 - (2 * k + 1) / places
  const turn = k * Math.PI * (3 - Math.sqrt(5))
  const ring = Math.sqrt(1 - z * z)
  return [ring * Math.cos(turn), ring * Math.sin(turn), z]
}
