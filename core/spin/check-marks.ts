import type { MarkedFrame, Marks, Outline, Sighting } from '../contract/marks.ts'
import { median } from '../numerics/median.ts'
import { assumed } from './assumptions.ts'
import type { NotMeasured } from './estimate.ts'

/** A mark this share of the radius, or this many click errors, outside the outline does not lie on the ball. */
const outsideShare = 0.1
const outsideClicks = 2.5

/** Longer than any flight; searching all rates over it would take as long. */
const longestSeconds = 30

/** The first thing about marks that no honest figure can come from, or null. Frames in order of time. */
export function faultOf(marks: Marks, frames: readonly TimedFrame[]): NotMeasured | null {
  return (
    rateFault(marks) ??
    frameFault(marks, frames) ??
    timeFault(frames) ??
    spanFault(frames) ??
    outlineFault(frames)
  )
}
export type TimedFrame = MarkedFrame & { atSeconds: number }

const not = (reason: string, tip: string, contradictory = false): NotMeasured => ({
  measured: false,
  reason,
  tip,
  ...(contradictory ? { contradictory } : {}),
})

function rateFault({ capture }: Marks): NotMeasured | null {
  if (capture.fps >= 1 && capture.fps <= 1e6) return null
  return not(
    `A capture rate of ${capture.fps} frames a second is no camera’s.`,
    'Say at how many frames a second the clip was filmed, between 1 and 1 000 000.',
  )
}

function frameFault(marks: Marks, frames: readonly TimedFrame[]): NotMeasured | null {
  const known = new Set(marks.marks.map(mark => mark.id))
  for (const frame of frames) {
    const names = [...frame.seen.map(sighting => sighting.mark), ...(frame.hidden ?? [])]
    const stranger = names.find(name => !known.has(name))
    if (stranger !== undefined)
      return not(
        `Frame ${frame.index} has a mark “${stranger}” that is not in the list of marks.`,
        'Add it there.',
      )
    const twice = names.find((name, i) => names.indexOf(name) !== i)
    if (twice !== undefined)
      return not(
        `Frame ${frame.index} has the mark “${twice}” twice, and it cannot be in two places.`,
        'Keep the one that is right.',
        true,
      )
    const fault = frame.outline && frame.outline.radiusPx > 0 ? null : outlineMissing(frame)
    const sightingFault = frame.seen
      .map(sighting =>
        sightingFaultOf(frame, sighting, marks.click?.standardUncertaintyPx ?? assumed.clickPx),
      )
      .find(Boolean)
    if (fault ?? sightingFault) return fault ?? sightingFault ?? null
  }
  return null
}

function outlineMissing(frame: TimedFrame): NotMeasured | null {
  const point = frame.seen.find(sighting => 'xPx' in sighting)
  if (!point) return null
  return not(
    `Frame ${frame.index} has the place of “${point.mark}” but no outline of the ball to measure it from.`,
    'Give the ball’s outline in that frame, or mark directions.',
  )
}

function sightingFaultOf(frame: TimedFrame, sighting: Sighting, clickPx: number): NotMeasured | null {
  const numbers = 'xPx' in sighting ? [sighting.xPx, sighting.yPx] : [sighting.bearingDeg]
  const { outline } = frame
  if (outline) numbers.push(outline.xPx, outline.yPx, outline.radiusPx)
  if (!numbers.every(Number.isFinite))
    return not(`Frame ${frame.index}: “${sighting.mark}” has a place that is not a number.`, 'Mark it again.')
  if (!('xPx' in sighting) || !outline) return null
  const outsidePx = Math.hypot(sighting.xPx - outline.xPx, sighting.yPx - outline.yPx) - outline.radiusPx
  if (outsidePx <= Math.max(outsideShare * outline.radiusPx, outsideClicks * clickPx)) return null
  const percent = ((100 * outsidePx) / outline.radiusPx).toFixed(0)
  return not(
    `Frame ${frame.index}: “${sighting.mark}” lies ${percent} % of the radius outside the ball.`,
    'Check the outline and the mark in that frame.',
  )
}

function timeFault(frames: readonly TimedFrame[]): NotMeasured | null {
  const lost = frames.find(frame => !Number.isFinite(frame.atSeconds))
  if (lost) return not(`Frame ${lost.index} has no time that is a number.`, 'Check the frame times.')
  for (let i = 1; i < frames.length; i++) {
    const [before, after] = [frames[i - 1]!, frames[i]!]
    if (before.index === after.index) return not(`Frame ${after.index} is there twice.`, 'Keep one.', true)
    if (after.atSeconds === before.atSeconds)
      return not(
        `Frames ${before.index} and ${after.index} have one and the same time.`,
        'A repeated picture carries no new time: leave one of them out.',
      )
    if (after.atSeconds < before.atSeconds)
      return not(
        `Time runs backwards from frame ${before.index} to frame ${after.index}.`,
        'Read the frame times again from the clip, or leave them out to use the frame numbers.',
      )
  }
  return null
}

function spanFault(frames: readonly TimedFrame[]): NotMeasured | null {
  const span = (frames.at(-1)?.atSeconds ?? 0) - (frames[0]?.atSeconds ?? 0)
  if (span <= longestSeconds) return null
  return not(
    `The frames span ${span.toFixed(0)} s: too long for one flight.`,
    'Choose the frames of a single hit.',
  )
}

/** A ball in flight neither leaps far beyond its usual step nor grows by half from one frame to the next. */
function outlineFault(frames: readonly TimedFrame[]): NotMeasured | null {
  const seen = frames.flatMap(frame => (frame.outline ? [{ ...frame, outline: frame.outline }] : []))
  const steps = seen.slice(1).map((after, i) => stepBetween(seen[i]!, after))
  const usualSpeed = median(steps.map(step => step.distancePx / step.seconds))
  const at = steps.findIndex(
    ({ before, after, distancePx, seconds, growth }) =>
      growth > 1.5 ** (after.index - before.index) ||
      (steps.length > 1 && distancePx > 3 * usualSpeed * seconds + 4 * before.outline.radiusPx),
  )
  if (at === -1) return null
  return not(
    `The outline jumps between frames ${steps[at]!.before.index} and ${steps[at]!.after.index}.`,
    'Check the outlines there: one of them is not on the ball, or they belong to two balls.',
  )
}

type Outlined = TimedFrame & { outline: Outline }
const stepBetween = (before: Outlined, after: Outlined) => ({
  before,
  after,
  seconds: after.atSeconds - before.atSeconds,
  distancePx: Math.hypot(after.outline.xPx - before.outline.xPx, after.outline.yPx - before.outline.yPx),
  growth: Math.exp(Math.abs(Math.log(after.outline.radiusPx / before.outline.radiusPx))),
})
