import type { Plan } from '../../core/contract/plan.ts'
import { stopsInWords } from '../../core/planning/stops.ts'
import { textOfSeconds } from '../../core/units/duration.ts'
import { textOfMetres } from '../../core/units/length.ts'
import { table } from './figures.ts'

const half = (rpm: number | null) => (rpm === null ? 'none' : `±${rpm.toFixed(rpm < 9.95 ? 1 : 0)} rpm`)

/** A plan as a person reads it on the command line: what was understood, what it gives, what limits, what helps. */
export function planForeseen(plan: Plan): string {
  const { setUp, expected } = plan
  const { hits, reason, halfWidthRpm } = expected.hitsForMeanHalfWidth
  const rows = [
    [
      'understood',
      `${setUp.captureFps} fps, ${textOfSeconds(setUp.exposureSeconds)}, ${setUp.widthPx} × ${setUp.heightPx} px, focal length ${setUp.focalLengthPx.toFixed(0)} px, ${Number(setUp.distanceMetres.toPrecision(3))} m to a ball of ${textOfMetres(setUp.ballDiameterMetres)}, ${setUp.rpm} rpm at ${Number(setUp.speedMetresPerSecond.toPrecision(3))} m/s`,
    ],
    ['mark', markTold(plan)],
    [
      'ball',
      `${plan.ballDiameterPx.toFixed(0)} px across, ${plan.framesInView} frames in view, ${plan.turnsInView.toFixed(1)} turns; ${plan.framesMarked} marked${plan.markedEvery > 1 ? `, one in ${plan.markedEvery}` : ''}`,
    ],
    [
      'turn',
      `${plan.rotationPerFrameDeg.toFixed(1)}° a frame, ${plan.framesPerRevolution.toFixed(2)} frames a turn`,
    ],
    [
      'smear',
      `${plan.smearDeg.toFixed(1)}°, ${plan.smearPx.toFixed(1)} px at the rim; the flight’s ${plan.flightSmearPx.toFixed(1)} px`,
    ],
    ...plan.ceilings.map(({ rpm, limit, headroom }, i) => [
      i === 0 ? 'ceilings' : '',
      `${rpm.toFixed(0)} rpm ${limit} (${headroom.toFixed(1)} times the spin)`,
    ]),
    [
      'band',
      `fitting ${half(expected.fittingHalfWidthRpm)} (${expected.method}), counting ${half(expected.countingHalfWidthRpm)}; ${plan.flag}`,
    ],
    [
      'mean',
      `${hits === null ? reason : `${hits} hits of a paddle`} for ±${halfWidthRpm} rpm, spin between hits ${setUp.betweenHitSdRpm} rpm`,
    ],
    ...(plan.sharp === null ? [] : [['sharp', sharpTold(plan.sharp)]]),
    ...(plan.lightStops === null ? [] : [['light', `${stopsInWords(plan.lightStops)} than now`]]),
  ]
  return `${table(rows)}${plan.limits}\n${plan.advice.map(line => `  –  ${line}\n`).join('')}`
}

const markWords = {
  dot: 'one dot',
  'two-dots': 'two dots a quarter turn apart',
  arrow: 'an arrow',
  line: 'a plain line',
} as const

const sharpTold = ({ nearMetres, farMetres }: NonNullable<Plan['sharp']>) =>
  `focused on the ball, from ${nearMetres.toFixed(2)} m ${farMetres === null ? 'on' : `to ${farMetres.toFixed(2)} m`}`

const markTold = ({ setUp, visiblePart }: Plan) =>
  `${markWords[setUp.mark]} ${setUp.markFromAxisDeg}° from the spin axis, which is ${setUp.axisTiltDeg}° off the line of sight; shows ${(100 * visiblePart).toFixed(0)} % of a turn`
