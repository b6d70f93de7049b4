import { choleskyOf, inverseOf, solvedBelow } from './dense.ts'
import type { SimulatedHit } from './hit.ts'
import { ownNoise, sharedErrors } from './noise.ts'
import { differenceOf, outlinesOf, rowsOf } from './rows.ts'
import { type Scene, withMark } from './scene.ts'
import { add, norm, type P3, spun, square, times } from './space.ts'

/** Least standard uncertainties that any unbiased estimate could have of one hit. */
export type Bound = { rpm: number; axisDeg: number }
/** How the error-free rows answer to a change of the scene, per unit of the change. */
export type Slope = (change: (by: number) => Scene, step: number, outlineMoves?: boolean) => number[]

/**
 * The Cramér–Rao bound of a simulated hit, from the information matrix of the simulator's own model at the
 * truth: F = JᵀΣ⁻¹J, J by differences. Σ holds all that was drawn: click, rounding and smear of each
 * sighting, and what sightings share (outlines, ticks, readout, focal length, decay), each with the spread
 * that whoever reads the document can know of: systematic effects count as drawn from their law.
 *
 * Unknowns: the rotation vector and each mark's place, whichever method read the hit: that an axis faces the camera
 * is a finding from the same marks, not given. (With the axis given, tests/reference/least-variance.test.ts holds
 * the bearing fit to its own bound.) Null where the data do not settle them.
 *
 * Source: Van Trees, Detection, Estimation, and Modulation Theory I (1968), 2.4 (with random nuisances).
 */
export function boundOf(hit: SimulatedHit): Bound | null {
  const { scene } = hit
  const outlines = outlinesOf(hit, scene)
  const slope: Slope = (change, step, outlineMoves = false) => {
    const [plus, minus] = [change(step), change(-step)].map(there =>
      rowsOf(hit, there, outlineMoves ? outlinesOf(hit, there) : outlines),
    )
    return differenceOf(hit, plus!, minus!).map(apart => apart / (2 * step))
  }
  const unknowns = unknownsOf(hit, slope)
  const size = unknowns[0]!.length
  const covariance = ownNoise(hit)
  for (const error of sharedErrors(hit, slope)) {
    for (let i = 0; i < size; i++) {
      for (let k = 0; k < size; k++) covariance[i * size + k]! += error[i]! * error[k]!
    }
  }
  const factor = choleskyOf(covariance, size)
  if (!factor) return null
  const whitened = unknowns.map(column => solvedBelow(factor, column))
  const information = whitened.flatMap(a => whitened.map(b => a.reduce((sum, x, i) => sum + x * b[i]!, 0)))
  const inverse = inverseOf(information, unknowns.length)
  if (!inverse) return null
  const rate = norm(scene.spin)
  const capture = captureSpread(hit) * rate
  const p = unknowns.length
  const across = inverse[p + 1]! + inverse[2 * p + 2]!
  return {
    rpm: (Math.sqrt(inverse[0]! + capture ** 2) * 60) / (2 * Math.PI),
    axisDeg: (Math.sqrt(across) / rate) * (180 / Math.PI),
  }
}

/** Spread of the capture rate about what the document says: stated, or 0 or 1/1001 with even odds. */
const captureSpread = ({ document }: SimulatedHit) => document.capture.relativeUncertainty ?? 0.0005

const alongSpin = ({ scene }: SimulatedHit): P3 => times(scene.spin, 1 / norm(scene.spin))

/** Rotation along the axis and square to it (rad/s), then two steps of each mark's place or run. */
function unknownsOf(hit: SimulatedHit, slope: Slope): number[][] {
  const { scene } = hit
  const axis = alongSpin(hit)
  const spins = [axis, ...square(axis)].map(e => spinSlope(scene, e, slope))
  const places = seenMarks(hit).flatMap(m => {
    const { place, along } = scene.marks[m]!
    return square(along ?? place).map(e =>
      slope(by => {
        const moved = spun(along ?? place, times(e, by))
        return withMark(scene, m, along ? { place, along: moved } : { place: moved, along })
      }, 1e-5),
    )
  })
  return [...spins, ...places]
}

const spinSlope = (scene: Scene, e: P3, slope: Slope) =>
  slope(by => ({ ...scene, spin: add(scene.spin, e, by) }), 1e-4 * norm(scene.spin))

const seenMarks = ({ sightings }: SimulatedHit) => [...new Set(sightings.map(s => s.mark))]
