import type { Marks } from '../../contract/marks.ts'
import { levenbergMarquardt } from '../../numerics/levenberg-marquardt.ts'
import { fallen, terminalSpeed } from './fall.ts'
import { notFound, type RateFound } from './rate-found.ts'

const fewestOutlines = 5
/** Drag coefficient of a ball, and how well it is known: a sphere's 0.45, holes and seams change it (from memory). */
const drag = { coefficient: 0.45, uncertainty: 0.1 }
/** Gravity where the camera stands against the standard one (Earth: 9.78 to 9.83), and a ball against its rule book. */
const gravityRelative = 0.0015
const sizeRelative = 0.01

/**
 * The capture rate from a dropped ball, by the outlines of a marks document: its scale comes from the ball's own
 * size, its fall from standard gravity with drag. Frames come too close in time by the factor in which the fall
 * looks too slow, squared.
 *
 * @param massKilograms of the ball; a pickleball has 0.022 to 0.0265 (USA Pickleball rulebook, 2.D)
 */
export function dropRate(marks: Marks, massKilograms: number): RateFound {
  const outlined = marks.frames.flatMap(({ index, outline }) => (outline ? [{ index, ...outline }] : []))
  if (outlined.length < fewestOutlines)
    return notFound(
      `${outlined.length} frames have an outline; a fall needs ${fewestOutlines} at least.`,
      'Place the outline in more frames of the fall, the first and the last among them.',
    )
  const radiusPx = outlined.reduce((sum, each) => sum + each.radiusPx, 0) / outlined.length
  const metresPerPx = marks.ball.diameterMetres / (2 * radiusPx)
  const fitWith = (coefficient: number) =>
    fitted(
      outlined,
      marks.capture.fps,
      metresPerPx,
      terminalSpeed(massKilograms, marks.ball.diameterMetres, coefficient),
    )
  const found = fitWith(drag.coefficient)
  if (found === null || found.ratio <= 0)
    return notFound(
      'The outlines do not fall faster and faster.',
      'Let the window hold the fall alone, without a bounce.',
    )
  const more = fitWith(drag.coefficient + drag.uncertainty)
  const byDrag = more ? Math.abs(more.ratio / found.ratio - 1) : 0
  const radii = outlined.map(each => (each.radiusPx - radiusPx) ** 2)
  const byRadius =
    Math.sqrt(radii.reduce((a, b) => a + b, 0) / (radii.length * (radii.length - 1))) / radiusPx
  // The rate goes with √(gravity / (acceleration in px · scale)).
  const byScale = Math.hypot(byRadius, sizeRelative) / 2
  return {
    measured: true,
    captureFps: marks.capture.fps * found.ratio,
    relativeUncertainty: Math.hypot(found.uncertainty / found.ratio, byDrag, byScale, gravityRelative / 2),
    remarks: [
      `The ball’s size gives ${(100 * byScale).toFixed(2)} %, drag ${(100 * byDrag).toFixed(2)} %, the fit ${((100 * found.uncertainty) / found.ratio).toFixed(2)} %.`,
    ],
  }
}

type Place = { index: number; yPx: number }

/** True capture rate over the nominal one; unknown beside it are height (px) and speed (m/s) at the first frame. */
function fitted(places: Place[], nominalFps: number, metresPerPx: number, terminal: number) {
  const first = places[0]!
  const at = (p: ArrayLike<number>, { index }: Place) =>
    p[0]! + fallen((index - first.index) / (nominalFps * p[2]!), p[1]!, terminal) / metresPerPx
  const fit = levenbergMarquardt(
    (p, residuals, jacobian) => {
      places.forEach((place, i) => {
        residuals[i] = at(p, place) - place.yPx
        for (let k = 0; k < 3; k++) {
          const step = 1e-6 * Math.max(Math.abs(p[k]!), 1)
          const moved = Float64Array.from(p)
          moved[k]! += step
          jacobian[3 * i + k] = (at(moved, place) - at(p, place)) / step
        }
      })
    },
    [first.yPx, 0.5, 1],
    places.length,
  )
  if (!fit.covariance) return null
  const variance = (fit.covariance[8]! * fit.sumOfSquares) / (places.length - 3)
  return { ratio: fit.parameters[2]!, uncertainty: Math.sqrt(variance) }
}
