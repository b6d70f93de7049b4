import { levenbergMarquardt } from 'ml-levenberg-marquardt'
import { fitBearing } from '../../../core/spin/bearing.ts'
import { bearingsOf } from '../../../core/spin/bearings-of.ts'
import type { Observations } from '../../../core/spin/observations.ts'
import { observationsOf } from '../../../core/spin/observations-of.ts'
import { fitSphere } from '../../../core/spin/sphere/fit-sphere.ts'
import { marksOf, type Truth } from '../../core/spin/truth.ts'
import { type Line, sideBySide } from './side-by-side.ts'

/**
 * Fits beside the general solver ml-levenberg-marquardt on the same marks. The solver is given what our fits
 * have to find first: the right rate and axis to start from, and bearings already unwrapped. It runs to the
 * same figure and no further.
 */
const observed = (truth: Partial<Truth>): Observations => {
  const result = observationsOf(marksOf({ clickPx: 1, ...truth }))
  if (!('observations' in result)) throw new Error(result.reason)
  return result.observations
}

/** The straight line through unwrapped bearings, ρ²-weighted, from a rate 1 % off. */
function generalBearing(o: Observations): () => number {
  const b = bearingsOf(o)
  const rate = (2330 * Math.PI) / 30
  const x = [...b.timeSeconds]
  const y = [...b.bearingRad].map((bearing, k) => {
    const line = b.bearingRad[0]! + rate * (x[k]! - x[0]!)
    return bearing + 2 * Math.PI * Math.round((line - bearing) / (2 * Math.PI))
  })
  const weights = [...b.pxPerRad].map(ρ => ρ ** 2)
  return () =>
    levenbergMarquardt(
      { x, y },
      ([offset, slope]) =>
        t =>
          offset! + slope! * t,
      {
        initialValues: [y[0]!, rate * 1.01],
        weights,
        damping: 1e-3,
        maxIterations: 100,
        errorTolerance: 1e-9,
      },
    ).parameterValues[1]!
}

/** Both pixel coordinates of one mark on the sphere: rotation vector and place, five numbers. */
function generalSphere(o: Observations, start: readonly number[]): () => number {
  const points = o.sightings.flatMap(s => (s.kind === 'point' ? [s] : []))
  const x = points.flatMap((_, k) => [2 * k, 2 * k + 1])
  const y = points.flatMap(s => [
    s.xPx - o.frames[s.frame]!.outline!.xPx,
    s.yPx - o.frames[s.frame]!.outline!.yPx,
  ])
  const offsetAt =
    ([wx, wy, wz, place, height]: number[]) =>
    (index: number) => {
      const { frame } = points[index >> 1]!
      const rate = Math.hypot(wx!, wy!, wz!)
      const [a, b, c] = [wx! / rate, wy! / rate, wz! / rate]
      const across = Math.cos(height!)
      const [px, py, pz] = [across * Math.cos(place!), across * Math.sin(place!), -Math.sin(height!)]
      const angle = rate * o.frames[frame]!.timeSeconds
      const [cos, sin] = [Math.cos(angle), Math.sin(angle)]
      const along = (a * px + b * py + c * pz) * (1 - cos)
      const u = [
        px * cos + (b * pz - c * py) * sin + a * along,
        py * cos + (c * px - a * pz) * sin + b * along,
      ]
      return o.frames[frame]!.outline!.radiusPx * u[index & 1]!
    }
  return () =>
    levenbergMarquardt({ x, y }, offsetAt, {
      initialValues: [...start],
      damping: 1e-3,
      gradientDifference: 1e-6,
      maxIterations: 100,
      errorTolerance: 1e-9,
    }).parameterValues[2]!
}

const general = 'ml-levenberg-marquardt'
const how = { clock: 'processor', repeats: 40, atLeastSeconds: 0.05 } as const

/** Not among the quick ones: from process to process the general solver takes up to half as long again. */
const bearingLine = (frames: number): Line => ({
  name: `bearing${frames}`,
  what: `Bearing fit, ${frames} frames`,
  beside: general,
  measure: () => {
    const o = observed({ frames })
    return sideBySide(() => fitBearing(o), generalBearing(o), how)
  },
})

const sphereLine = (frames: number): Line => ({
  name: `sphere${frames}`,
  what: `Sphere fit, ${frames} frames`,
  beside: general,
  isQuick: true,
  measure: () => {
    const o = observed({
      frames,
      tiltDeg: 40,
      marks: [{ id: 'logo', symmetryOrder: 1, offsetShare: 0.5, startDeg: 20 }],
    })
    return sideBySide(() => fitSphere(o), generalSphere(o, startOf(o)), how)
  },
})

/** Where the solver may begin: the fit's own rotation with a rate 1 % off, and the mark as it is first seen. */
function startOf(o: Observations): number[] {
  const fit = fitSphere(o)
  if (!fit.measured) throw new Error(fit.reason)
  const first = o.sightings[0]!
  const outline = o.frames[first.frame]!.outline!
  if (first.kind !== 'point') throw new Error('The bench sees points.')
  const [dx, dy] = [
    (first.xPx - outline.xPx) / outline.radiusPx,
    (first.yPx - outline.yPx) / outline.radiusPx,
  ]
  return [
    ...fit.rotationRadPerSecond.map(w => w * 1.01),
    Math.atan2(dy, dx),
    Math.acos(Math.min(Math.hypot(dx, dy), 1)),
  ]
}

export const fits: Line[] = [...[12, 24, 60].map(bearingLine), ...[24, 60].map(sphereLine)]
