import type { PlanSetUp } from '../contract/plan.ts'
import { textOfSeconds } from '../units/duration.ts'
import { inViewOf, markedFramesOf } from './in-view.ts'
import { visiblePartOf } from './planned-mark.ts'
import { stopsBetween, stopsInWords } from './stops.ts'

/** One thing done otherwise, in words, and the set-up that it makes. */
export type Change = { words: string; costs: string; setUp: PlanSetUp }

/** Smears beyond this are worth a shorter exposure twice over. */
const longSmearDeg = 14

const figure = (value: number) => value.toFixed(value < 9.95 ? 1 : 0)
const metres = (length: number) => `${Number(length.toPrecision(2))}\u00a0m`

/** What could be changed about a set-up, each thing by itself; all that makes sense, not all that helps. */
export function changesTo(setUp: PlanSetUp): Change[] {
  return [
    shorterExposure(setUp),
    fasterFrames(setUp),
    ...otherDistance(setUp),
    ...betterMark(setUp),
    ...moreFrames(setUp),
    ...knownSense(setUp),
  ]
}

function shorterExposure(setUp: PlanSetUp): Change {
  const { smearDeg, flightSmearPx, ballDiameterPx } = inViewOf(setUp)
  const isLong = smearDeg > longSmearDeg || flightSmearPx > ballDiameterPx / 4
  const exposureSeconds = setUp.exposureSeconds / (isLong ? 4 : 2)
  const shorter = { ...setUp, exposureSeconds }
  const after = inViewOf(shorter)
  const turning = `the smear from ${figure(smearDeg)}° to ${figure(after.smearDeg)}°`
  const flying = `the flight’s smear from ${figure(flightSmearPx)} px to ${figure(after.flightSmearPx)} px`
  return {
    words: `Exposure ${textOfSeconds(exposureSeconds)} instead of ${textOfSeconds(setUp.exposureSeconds)} takes ${turning} and ${flying}`,
    costs: `it needs ${stopsInWords(stopsBetween(setUp.exposureSeconds, exposureSeconds))}`,
    setUp: shorter,
  }
}

function fasterFrames(setUp: PlanSetUp): Change {
  const captureFps = 2 * setUp.captureFps
  const exposureSeconds = Math.min(setUp.exposureSeconds, 1 / captureFps)
  const before = (360 * setUp.rpm) / (60 * setUp.captureFps)
  return {
    words: `${captureFps} fps instead of ${setUp.captureFps} takes the turn from frame to frame from ${before.toFixed(0)}° to ${(before / 2).toFixed(0)}°`,
    costs:
      exposureSeconds < setUp.exposureSeconds
        ? `its exposure is ${textOfSeconds(exposureSeconds)} at the most`
        : '',
    setUp: { ...setUp, captureFps, exposureSeconds },
  }
}

function otherDistance(setUp: PlanSetUp): Change[] {
  const now = inViewOf(setUp)
  return [setUp.distanceMetres / 1.5, 1.5 * setUp.distanceMetres].map(distanceMetres => {
    const moved = { ...setUp, distanceMetres }
    const then = inViewOf(moved)
    return {
      words: `${metres(distanceMetres)} to the ball instead of ${metres(setUp.distanceMetres)} makes it ${then.ballDiameterPx.toFixed(0)} px across instead of ${now.ballDiameterPx.toFixed(0)} and holds it for ${then.framesInView} frames instead of ${now.framesInView}`,
      costs: '',
      setUp: moved,
    }
  })
}

function betterMark(setUp: PlanSetUp): Change[] {
  const changes: Change[] = []
  if (setUp.mark === 'line')
    changes.push({
      words: 'An arrow instead of a plain line repeats once a turn, not twice',
      costs: '',
      setUp: { ...setUp, mark: 'arrow' },
    })
  if (setUp.mark !== 'two-dots')
    changes.push({
      words: `Two dots a quarter turn apart instead of ${{ dot: 'one dot', arrow: 'an arrow', line: 'a plain line' }[setUp.mark]}`,
      costs: '',
      setUp: { ...setUp, mark: 'two-dots' },
    })
  const always = Math.floor((90 - setUp.axisTiltDeg) / 10) * 10 - 10
  if (visiblePartOf(setUp) < 1 && always >= 20)
    changes.push({
      words: `A mark ${always}° from the spin axis shows all the way round`,
      costs: '',
      setUp: { ...setUp, markFromAxisDeg: always },
    })
  return changes
}

function moreFrames(setUp: PlanSetUp): Change[] {
  const { framesInView } = inViewOf(setUp)
  if (framesInView <= setUp.mostFrames || markedFramesOf(setUp).count < setUp.mostFrames) return []
  const mostFrames = Math.min(framesInView, 2 * setUp.mostFrames, 200)
  return [
    {
      words: `${mostFrames} frames marked instead of ${setUp.mostFrames}`,
      costs: '',
      setUp: { ...setUp, mostFrames },
    },
  ]
}

function knownSense(setUp: PlanSetUp): Change[] {
  if (setUp.senseKnown) return []
  return [
    {
      words: 'Noting which way each shot spins leaves one rate where the picture fits two',
      costs: '',
      setUp: { ...setUp, senseKnown: true },
    },
  ]
}
