import { cross, length, scaled, unit, type Vector } from '../../geometry/vector.ts'
import type { Estimate, RateCandidate } from '../../spin/estimate.ts'
import type { Observations } from '../../spin/observations.ts'
import { degOfRad, radOfDeg } from '../../units/angle.ts'
import { waveAmplitudeRad, wavePassed } from './pattern-wave.ts'
import type { Solution } from './solve.ts'
import type { SurfaceInput } from './surface-input.ts'

/** What an outline's centre may be off by all along a flight, px: standard uncertainty, seen on rendered clips. */
const outlineBiasPx = 0.4
/**
 * A pattern smeared over such an arc is no longer a pattern of places: what is seen of it is taken to lie
 * anywhere in its arc (rectangular), less the shorter the smear; the axis goes with the square. Seen on rendered clips.
 */
const fullSmearRad = radOfDeg(30)
const smearAxisRad = radOfDeg(3)
/** Holes are lit from one side, which shifts all of them alike and tilts the axis: seen on rendered clips. */
const litAxisRad = radOfDeg(1.5)
/** Over what is not surely a whole turn no place comes by twice: the light, which stands still, may pass for pattern. */
const leastTurnRad = radOfDeg(360)

/**
 * A surface fit in the shape that all estimators share, one sighting a frame: the phase by which the frame
 * stands off, in px at the rim.
 */
export function estimateOf(
  { focalLengthPx, exposureSeconds }: SurfaceInput,
  { rotation, regression, focalPx, sights }: Solution,
  candidates: RateCandidate[],
): Estimate {
  const [, , z] = rotation
  const rate = length(rotation)
  const sense = z < 0 ? -1 : 1
  const pxPerRad = sights.map(({ view }) => view.outline.radiusPx)
  const radiusPx = pxPerRad.reduce((sum, px) => sum + px, 0) / pxPerRad.length
  const smearRad = rate * (exposureSeconds ?? 0)
  const smeared = smearRad * Math.min(1, smearRad / fullSmearRad)
  const gains = Math.hypot(...regression.phaseGains)
  const axis = [rotation[0] / rate, rotation[1] / rate] as const
  const axisUncertainty = Math.hypot(
    regression.axisUncertainty,
    outlineBiasPx / radiusPx,
    litAxisRad,
    smearAxisRad * (smearRad / fullSmearRad) ** 2,
  )
  const byView = axisUncertainty * viewTurn(sights, rotation)
  const scatterUncertainty = Math.hypot(regression.rateUncertainty, (gains * smeared) / Math.sqrt(12), byView)
  const patternUncertainty = (waveAmplitudeRad / Math.SQRT2) * wavePassed(sights, rate, regression.phaseGains)
  const seconds = sights.at(-1)!.timeSeconds - sights[0]!.timeSeconds
  const turnRad = rate * seconds
  const surelyRad = turnRad - 2 * seconds * Math.hypot(scatterUncertainty, patternUncertainty)
  const tilt = degOfRad(Math.acos(Math.min(Math.abs(z) / rate, 1)))
  return {
    measured: true,
    method: 'surface',
    rotationRadPerSecond: rotation,
    rateRadPerSecond: sense * rate,
    axisUncertaintyRad: axisUncertainty,
    scatter: {
      px: regression.scatterRad * radiusPx,
      from: 'residuals',
      degreesOfFreedom: regression.degreesOfFreedom,
      redundancy: Math.max(sights.length - 2, 0),
    },
    scatterUncertaintyRadPerSecond: scatterUncertainty,
    candidates,
    sightings: sights.map((sight, i) => ({
      timeSeconds: sight.timeSeconds,
      residualPx: null,
      phaseResidualRad: sense * regression.phaseResiduals[i]!,
      pxPerRad: pxPerRad[i]!,
      way: [0, 0],
      weight: regression.weights[i]!,
      // A centre that is off by a pixel turns what is seen by 1/radius about the axis across it.
      ratePerXPx: (regression.phaseGains[i]! * axis[1]) / radiusPx,
      ratePerYPx: (-regression.phaseGains[i]! * axis[0]) / radiusPx,
      ratePerRadiusPx: 0,
      ratePerPhaseRad: regression.phaseGains[i]!,
    })),
    modelled: [],
    patternRadPerSecond: patternUncertainty,
    ...(surelyRad < leastTurnRad && {
      unchecked: `The ball turns ${degOfRad(turnRad).toFixed(0)}° in all that was seen: too little to tell its pattern from the light on it.`,
    }),
    remarks: [
      `The axis lies ${tilt.toFixed(0)}° from the line of sight, with a standard uncertainty of ${degOfRad(axisUncertainty).toFixed(1)}°.`,
      ...(focalLengthPx === null
        ? [`The focal length was estimated with the rotation: ${focalPx.toFixed(0)} px.`]
        : []),
    ],
  }
}

/**
 * How fast the line of sight turns across the axis, rad/s: an axis that is off by an angle takes that share of it
 * for the ball's own turning.
 */
function viewTurn(sights: Solution['sights'], rotation: Vector): number {
  const [first, last] = [sights[0]!, sights.at(-1)!]
  const turn = scaled(cross(first.view.toBall, last.view.toBall), 1 / (last.timeSeconds - first.timeSeconds))
  return length(cross(turn, unit(rotation)))
}

/** The one pseudo mark that the surface as a whole is: it looks the same after a whole turn and always shows. */
export const surfaceMark = { id: 'surface', symmetryOrder: 1 }

/** One sighting a frame, for what core/spin makes of any estimate: ceiling, flag, budget, reading. */
export function surfaceObservations(
  input: SurfaceInput,
  known: {
    ballDiameterMetres: number
    sense: Observations['plausible']['sense']
    captureRelativeUncertainty: number | null
    readoutUncertaintySeconds: number | null
  },
): Observations {
  return {
    frames: input.frames.map(({ index, timeSeconds, outline }) => ({ index, timeSeconds, outline })),
    marks: [surfaceMark],
    sightings: input.frames.map((_, frame) => ({ kind: 'direction', frame, mark: 0, bearingRad: 0 })),
    hidden: [],
    capture: {
      fps: input.fps,
      relativeUncertainty: known.captureRelativeUncertainty,
      exposureSeconds: input.exposureSeconds,
      readoutSeconds: input.readoutSeconds,
      readoutUncertaintySeconds: known.readoutUncertaintySeconds,
      focalLengthPx: input.focalLengthPx,
      tickSeconds: null,
    },
    picture: input.picture,
    ballDiameterMetres: known.ballDiameterMetres,
    plausible: { maxRateRadPerSecond: input.maxRateRadPerSecond, sense: known.sense },
    clickPx: outlineBiasPx,
  }
}
