import type { Marks } from '../contract/marks.ts'
import { smoothPath } from '../geometry/smooth-path.ts'
import { wrapAngle } from '../numerics/wrap-angle.ts'
import { evenClock, tickThatShows } from '../timing/even-clock.ts'
import { radOfDeg } from '../units/angle.ts'
import { radPerSecondOfRpm } from '../units/rate.ts'
import { assumed } from './assumptions.ts'
import { ballVelocity } from './ball-velocity.ts'
import { faultOf, type TimedFrame } from './check-marks.ts'
import type { NotMeasured } from './estimate.ts'
import type { Observations, ObservedFrame, Sighting } from './observations.ts'
import { outlineUncertainty } from './outline-uncertainty.ts'

/**
 * `whorl.marks/1` in the core's own units, frames in order of time, or the reason why nothing can be
 * measured from them. Never throws on what the schema lets through.
 */
export function observationsOf(marks: Marks): { observations: Observations } | NotMeasured {
  const timed = marks.frames
    .map(
      (frame): TimedFrame => ({ ...frame, atSeconds: frame.timeSeconds ?? frame.index / marks.capture.fps }),
    )
    .sort((a, b) => a.index - b.index)
  const fault = faultOf(marks, timed)
  if (fault) return fault
  const clickPx = marks.click?.standardUncertaintyPx ?? null
  const clock = onTheCamerasClock(timed, marks.capture, clickPx ?? assumed.clickPx)
  const { tickSeconds } = clock
  const frames = onOnePath(clock.frames, clickPx ?? assumed.clickPx, tickSeconds ?? 0)
  const position = new Map(marks.marks.map((mark, i) => [mark.id, i]))
  const { capture, plausible } = marks
  return {
    observations: {
      frames,
      marks: marks.marks,
      sightings: timed.flatMap((frame, i) =>
        frame.seen.map(seen => sightingOf(seen, i, position.get(seen.mark)!, frames[i]!)),
      ),
      hidden: timed.flatMap((frame, i) =>
        (frame.hidden ?? []).map(id => ({ frame: i, mark: position.get(id)! })),
      ),
      capture: {
        fps: capture.fps,
        relativeUncertainty: capture.relativeUncertainty ?? null,
        exposureSeconds: capture.exposureSeconds ?? null,
        readoutSeconds: capture.readoutSeconds ?? null,
        readoutUncertaintySeconds: capture.readoutUncertaintySeconds ?? null,
        focalLengthPx: capture.focalLengthPx ?? null,
        tickSeconds,
      },
      picture: marks.picture,
      ballDiameterMetres: marks.ball.diameterMetres,
      plausible: {
        maxRateRadPerSecond: radPerSecondOfRpm(plausible?.maxRpm ?? assumed.maxRpm),
        sense: plausible?.sense ?? null,
      },
      clickPx,
      wantedHalfWidthRpm: marks.wantedHalfWidthRpm ?? null,
      withDecay: marks.withDecay ?? false,
    },
  }
}

/**
 * Rounded times that an even clock explains become that clock's, and then no tick is left in them; unless the ball,
 * which flies smoothly, jumps on that clock and does so less on the times as they are.
 */
function onTheCamerasClock(timed: TimedFrame[], { fps, tickSeconds }: Marks['capture'], clickPx: number) {
  const times = timed.map(frame => frame.atSeconds)
  const numbers = timed.map(frame => frame.index)
  const given = timed.some(frame => frame.timeSeconds !== undefined)
  const tick = given ? (tickSeconds ?? tickThatShows(times, fps)) : null
  const even = tick === null ? null : evenClock(times, numbers, fps, tick)
  const framesAt = (seconds: number[]) =>
    timed.map(
      ({ index, outline }, i): ObservedFrame => ({
        index,
        timeSeconds: seconds[i]!,
        outline: outline ?? null,
      }),
    )
  const asGiven = framesAt(times)
  if (!even) return { frames: asGiven, tickSeconds: tick }
  const onEven = framesAt(even)
  const jump = pathOf(onEven)?.scatterPx ?? 0
  const jumps = jump > plausibleScatter * clickPx && jump > (pathOf(asGiven)?.scatterPx ?? 0)
  return jumps ? { frames: asGiven, tickSeconds: tick } : { frames: onEven, tickSeconds: null }
}

/** Outlines further from a smooth path than this multiple of the click error are not of one flight, or not clicks. */
const plausibleScatter = 2.5

function pathOf(frames: ObservedFrame[]) {
  const outlined = frames.flatMap(({ timeSeconds, outline }) => (outline ? [{ timeSeconds, outline }] : []))
  return smoothPath(
    outlined.map(frame => frame.timeSeconds),
    outlined.map(frame => frame.outline),
  )
}

/**
 * Frames whose outlines follow the smooth path of one flight, where they do so to within what clicks err. Where
 * frame times were rounded to a tick, the path is off by what the ball flies meanwhile, and each outline is taken
 * between the two by their variances.
 */
function onOnePath(frames: ObservedFrame[], clickPx: number, tickSeconds: number): ObservedFrame[] {
  const path = pathOf(frames)
  if (!path || path.scatterPx > plausibleScatter * clickPx) return frames
  const { x, y } = ballVelocity(frames)
  const offPath = (Math.hypot(x, y) * tickSeconds) ** 2 / 12
  const ofPath = 1 / (1 + offPath / outlineUncertainty(clickPx).centrePx ** 2)
  const between = (own: number, smooth: number) => own + ofPath * (smooth - own)
  let next = 0
  return frames.map(frame => {
    if (!frame.outline) return frame
    const smooth = path.outlines[next++]!
    const { xPx, yPx } = frame.outline
    return { ...frame, outline: { ...smooth, xPx: between(xPx, smooth.xPx), yPx: between(yPx, smooth.yPx) } }
  })
}

function sightingOf(
  seen: Marks['frames'][number]['seen'][number],
  frame: number,
  mark: number,
  { outline }: ObservedFrame,
): Sighting {
  if ('bearingDeg' in seen) return { kind: 'direction', frame, mark, bearingRad: radOfDeg(seen.bearingDeg) }
  const { xPx, yPx, smear } = seen
  const bearing = (x: number, y: number) => Math.atan2(y - outline!.yPx, x - outline!.xPx)
  const smearArcRad = smear
    ? Math.abs(wrapAngle(bearing(smear.toXPx, smear.toYPx) - bearing(smear.fromXPx, smear.fromYPx)))
    : null
  return { kind: 'point', frame, mark, xPx, yPx, smearArcRad }
}
