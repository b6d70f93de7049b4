import type { PlanSetUp } from '../contract/plan.ts'
import type { Flag } from '../contract/reading.ts'
import { expectedReading, halfWidthOf } from './expected-reading.ts'
import { plannedCeilings } from './plan.ts'

/** The band to expect at one spin; null where no figure is to be had. */
export type CurvePoint = { rpm: number; halfWidthRpm: number | null; flag: Flag }
/** One frame rate's bands over the spin, and the spin that it cannot pass. */
export type Curve = { captureFps: number; ceilingRpm: number; points: CurvePoint[] }

/** Frame rates that cameras and phones offer: common practice, no source. */
const usualFps = [120, 240, 480, 960]
const pointsPerCurve = 10

export const mostRpmOf = ({ rpm }: PlanSetUp): number => Math.max(3000, Math.ceil((1.5 * rpm) / 500) * 500)

/**
 * The band against spin for the usual frame rates and the set-up's own, all else held (an exposure can be no
 * longer than a frame). Gives one curve after the other, so that whoever draws can breathe between.
 */
export function* bandCurves(setUp: PlanSetUp): Generator<Curve> {
  const rates = [...new Set([setUp.captureFps, ...usualFps])]
  const most = mostRpmOf(setUp)
  for (const captureFps of rates) {
    const filmed = { ...setUp, captureFps, exposureSeconds: Math.min(setUp.exposureSeconds, 1 / captureFps) }
    const ceilings = plannedCeilings(filmed).filter(one => one.limit !== 'counting')
    const points: CurvePoint[] = []
    const curve = { captureFps, ceilingRpm: ceilings[0]!.rpm, points }
    for (let i = 1; i <= pointsPerCurve; i++) {
      const rpm = (most * i) / pointsPerCurve
      const reading = expectedReading({ ...filmed, rpm }, 3)
      points.push({ rpm, halfWidthRpm: halfWidthOf(reading), flag: reading.flag })
      yield { ...curve, points: [...points] }
    }
  }
}
