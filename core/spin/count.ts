import type { Counted } from '../contract/reading.ts'
import { rpmOfRadPerSecond } from '../units/rate.ts'
import type { Observations } from './observations.ts'

/**
 * Half-width, frames, that holds 95 % of the error of a counted span: each end is within half a frame
 * (rectangular), their difference within one (triangular, JCGM 100:2008, 4.3.9), so 1 − √0.05.
 */
export const countedHalfWidthFrames = 1 - Math.sqrt(0.05)

/** k whole turns counted between two frames n apart: 60·f·k/n, its 95 % band and the limits it cannot leave. */
export function countedReading(turns: number, frames: number, fps: number): Counted {
  const rpm = (n: number) => (60 * fps * turns) / n
  return {
    turns,
    frames,
    rpm: rpm(frames),
    lowRpm: rpm(frames + countedHalfWidthFrames),
    highRpm: rpm(frames - countedHalfWidthFrames),
    hardLowRpm: rpm(frames + 1),
    hardHighRpm: frames > 1 ? rpm(frames - 1) : null,
  }
}

/**
 * What careful counting would say of a hit that turns at `rate`: as many whole turns as the marked frames
 * hold, from the first to the frame in which the mark is nearest to where it began. Null when the mark
 * does not come round once.
 */
export function countOf(rateRadPerSecond: number, o: Observations): Counted | null {
  const rpm = Math.abs(rpmOfRadPerSecond(rateRadPerSecond))
  const marked = o.sightings.map(sighting => o.frames[sighting.frame]!.timeSeconds)
  const span = Math.round((Math.max(...marked) - Math.min(...marked)) * o.capture.fps)
  const framesPerTurn = (60 * o.capture.fps) / rpm
  const turns = Math.floor((span + 0.5) / framesPerTurn)
  const frames = Math.round(turns * framesPerTurn)
  return turns >= 1 && frames >= 1 ? countedReading(turns, frames, o.capture.fps) : null
}
