import type { FocalCheck, FocalWay } from '../contract/focal-check.ts'
import { WhorlError } from '../contract/problem.ts'
import { degOfRad, radOfDeg } from '../units/angle.ts'
import { focalOfAngle, focalOfBall, focalOfWidth } from './field-of-view.ts'

export type FocalFound = Pick<FocalCheck, 'focalLengthPx' | 'standardUncertaintyPx' | 'acrossDeg' | 'remarks'>

/** Standard uncertainties stand beside their figures, in the same unit. */
export type SeenBall = {
  widthPx: number
  diameterPx: number
  diameterUncertaintyPx: number
  diameterMetres: number
  diameterUncertaintyMetres: number
  distanceMetres: number
  distanceUncertaintyMetres: number
}
export type SeenAngle = { widthPx: number; acrossDeg: number; uncertaintyDeg: number }
export type SeenWidth = {
  widthPx: number
  widthMetres: number
  widthUncertaintyMetres: number
  distanceMetres: number
  distanceUncertaintyMetres: number
}

/** Wider than this no lens draws straight lines straight; narrower is a telescope. */
const angles = { widestDeg: 150, narrowestDeg: 0.5 }
/** Half of what is stated must lie well above its own uncertainty. */
const mostUnsure = 0.3

/**
 * The focal length from a ball's size in the picture, at a known distance from the lens; near the picture's
 * middle, where a ball is round. Uncertainties by the law of propagation (JCGM 100:2008, 5.1.2).
 * Throws focal-not-checked, as the two others do.
 */
export function focalFromBall(seen: SeenBall): FocalFound {
  const { widthPx, diameterPx, diameterMetres, distanceMetres } = seen
  if (distanceMetres <= 2 * diameterMetres)
    throw refused(
      'The ball lies within two of its diameters of the lens.',
      'Give the distance from the lens to the ball’s middle, as 2 m or 6 ft.',
    )
  if (diameterPx >= widthPx)
    throw refused(
      `A ball ${diameterPx} px across does not fit into a picture ${widthPx} px wide.`,
      'Give the ball’s size and the picture’s width in the same pixels.',
    )
  return judged(widthPx, focalOfBall(diameterPx, diameterMetres, distanceMetres), {
    'the ball in the picture': seen.diameterUncertaintyPx / diameterPx,
    'the ball’s size': seen.diameterUncertaintyMetres / diameterMetres,
    'the distance': seen.distanceUncertaintyMetres / distanceMetres,
  })
}

/** The focal length from the field of view across the picture, as a camera's data sheet has it. */
export function focalFromAngle({ widthPx, acrossDeg, uncertaintyDeg }: SeenAngle): FocalFound {
  // d(cot(a/2))/da over cot(a/2) is 1/sin a.
  return judged(widthPx, focalOfAngle(widthPx, acrossDeg), {
    'the angle': radOfDeg(uncertaintyDeg) / Math.abs(Math.sin(radOfDeg(acrossDeg))),
  })
}

/** The focal length from a length that just fills the picture's width, square to the line of sight. */
export function focalFromWidth(seen: SeenWidth): FocalFound {
  const { widthPx, widthMetres, distanceMetres } = seen
  return judged(widthPx, focalOfWidth(widthPx, widthMetres, distanceMetres), {
    'the width': seen.widthUncertaintyMetres / widthMetres,
    'the distance': seen.distanceUncertaintyMetres / distanceMetres,
  })
}

export const focalCheckOf = (way: FocalWay, found: FocalFound): FocalCheck => ({
  schema: 'whorl.focal-check/1',
  way,
  ...found,
})

const refused = (reason: string, tip: string) => new WhorlError('focal-not-checked', { reason, tip })

function judged(widthPx: number, focalLengthPx: number, parts: Record<string, number>): FocalFound {
  const acrossDeg = 2 * degOfRad(Math.atan(widthPx / 2 / focalLengthPx))
  if (!(acrossDeg <= angles.widestDeg && acrossDeg >= angles.narrowestDeg))
    throw refused(
      `That is a field of view of ${Number(acrossDeg.toPrecision(3))}° across: no camera has it.`,
      'Check the units: sizes and distances as 74 mm, 2.9 in, 2 m or 6 ft.',
    )
  const relative = Math.hypot(...Object.values(parts))
  if (!(relative <= mostUnsure))
    throw refused(
      `The focal length would be known to ${(100 * relative).toFixed(0)} % only.`,
      'Measure more closely, and from farther away.',
    )
  const [most, share] = Object.entries(parts).reduce((a, b) => (b[1] > a[1] ? b : a))
  return {
    focalLengthPx,
    standardUncertaintyPx: focalLengthPx * relative,
    acrossDeg,
    remarks: [`Most of the uncertainty, ${(100 * share).toFixed(2)} %, is ${most}.`],
  }
}
