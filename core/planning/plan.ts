import type { Plan, PlanSetUp } from '../contract/plan.ts'
import { ceilingsOf } from '../spin/ceiling.ts'
import { countedReading } from '../spin/count.ts'
import { degPerFrameOfRpm, framesPerRevolutionOfRpm } from '../units/rate.ts'
import { adviceFor } from './advice.ts'
import { type Lens, sharpFromTo } from './depth-of-field.ts'
import { expectedReading, halfWidthOf } from './expected-reading.ts'
import { hitsForMean } from './hits-for-mean.ts'
import { inViewOf, markedFramesOf } from './in-view.ts'
import { limitsOf } from './limits.ts'
import { symmetryOrderOf, visiblePartOf } from './planned-mark.ts'
import { stopsBetween } from './stops.ts'

/** What a camera can do with a hit, before it is filmed: `whorl.plan/1`. Takes some tenths of a second. */
export function planOf(setUp: PlanSetUp, lens: Lens | null = null): Plan {
  const inView = inViewOf(setUp)
  const marked = markedFramesOf(setUp)
  const expected = expectedReading(setUp)
  const ceilings = plannedCeilings(setUp)
  return {
    schema: 'whorl.plan/1',
    setUp,
    rotationPerFrameDeg: degPerFrameOfRpm(setUp.rpm, setUp.captureFps),
    framesPerRevolution: framesPerRevolutionOfRpm(setUp.rpm, setUp.captureFps),
    ...inView,
    framesMarked: marked.count,
    markedEvery: marked.every,
    visiblePart: visiblePartOf(setUp),
    ceilings,
    flag: expected.flag,
    reasons: expected.reasons,
    expected: {
      method: expected.method,
      countingHalfWidthRpm: countingHalfWidth(setUp),
      fittingHalfWidthRpm: halfWidthOf(expected),
      hitsForMeanHalfWidth: { halfWidthRpm: setUp.wantedHalfWidthRpm, ...hitsForMean(expected, setUp) },
      budget: expected.budget,
    },
    lightStops:
      setUp.presentExposureSeconds === null
        ? null
        : stopsBetween(setUp.presentExposureSeconds, setUp.exposureSeconds),
    sharp: lens && sharpFromTo(setUp, lens),
    limits: limitsOf(setUp, inView, ceilings, expected),
    advice: adviceFor(setUp, expected),
  }
}

/** Every limit of the set-up with its headroom, lowest first. */
export function plannedCeilings(setUp: PlanSetUp): Plan['ceilings'] {
  const ceilings = ceilingsOf({
    fps: setUp.captureFps,
    symmetryOrder: symmetryOrderOf(setUp.mark),
    senseKnown: setUp.senseKnown,
    visiblePart: visiblePartOf(setUp),
    exposureSeconds: setUp.exposureSeconds,
    counting: {
      halfWidthRpm: setUp.wantedHalfWidthRpm,
      frames: spanOf(setUp),
    },
  })
  return ceilings.map(ceiling => ({ ...ceiling, headroom: ceiling.rpm / setUp.rpm }))
}

/** Frames from the first marked to the last. */
function spanOf(setUp: PlanSetUp): number {
  const { count, every } = markedFramesOf(setUp)
  return Math.max((count - 1) * every, 0)
}

/**
 * Half-width of the band of careful counting: as many whole turns as the marked frames hold, each end to the
 * nearest frame. Null where the mark does not come round once.
 */
export function countingHalfWidth(setUp: PlanSetUp): number | null {
  const perTurn = framesPerRevolutionOfRpm(setUp.rpm, setUp.captureFps)
  const turns = Math.floor((spanOf(setUp) + 0.5) / perTurn)
  const frames = Math.round(turns * perTurn)
  if (turns < 1 || frames < 1) return null
  const { lowRpm, highRpm } = countedReading(turns, frames, setUp.captureFps)
  return (highRpm - lowRpm) / 2
}
