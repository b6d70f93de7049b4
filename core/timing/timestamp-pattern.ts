import { straightLine } from '../numerics/straight-line.ts'

/** What a clip's frame times show by themselves. */
export type TimestampPattern = {
  /** The step to which the times are rounded, seconds; null for fewer than two frames. */
  tickSeconds: number | null
  /** Frames a second where none is missing: a usual rate where one fits the times; null for fewer than two. */
  fps: number | null
  /** True when one even grid explains all times, dropped frames left out of it. */
  even: boolean
  gaps: { afterFrame: number; missing: number }[]
}

/**
 * Reads tick, evenness and dropped frames from frame times that rise.
 *
 * Times in a container are whole numbers of a time base, and often of something coarser: 240 fps at 1/600 s
 * alternates 2 and 3 ticks. Such times are even: they lie within a tick of one grid, to either side (rounding moves
 * them by up to one, and the grid itself is found from rounded times), or within a hundredth of a frame.
 * A step of nearly a whole number of intervals is a gap with that many frames less one missing.
 *
 * @param timesSeconds container times, one a frame, rising
 * @param timeBaseSeconds the container's time base
 * @example timestampPattern([0, 0.1, 0.2, 0.4], 0.001).gaps // [{ afterFrame: 2, missing: 1 }]
 */
export function timestampPattern(timesSeconds: readonly number[], timeBaseSeconds: number): TimestampPattern {
  const ticks = timesSeconds.map(t => Math.round((t - timesSeconds[0]!) / timeBaseSeconds))
  const steps = ticks.slice(1).map((tick, i) => tick - ticks[i]!)
  const guess = ordinaryStep(steps)
  if (guess === null) return { tickSeconds: null, fps: null, even: true, gaps: [] }

  const tick = coarsestTick(steps)
  const places = placesOn(steps, guess)
  const interval = straightLine(places, ticks)!.slope
  const even = spreadAround(places, ticks, interval) <= Math.max(2 * tick, 0.02 * interval)
  return {
    tickSeconds: tick * timeBaseSeconds,
    fps: usualFps(1 / (interval * timeBaseSeconds), tick / (interval * places.at(-1)!)),
    even,
    gaps: gapsIn(steps, interval, tick),
  }
}

/** The mean of the steps that differ from the middle one by no more than rounding, or null without steps. */
function ordinaryStep(steps: readonly number[]): number | null {
  const rising = steps.filter(s => s > 0).sort((a, b) => a - b)
  const middle = rising[rising.length >> 1]
  if (middle === undefined) return null
  const near = rising.filter(s => Math.abs(s - middle) <= Math.max(1, middle / 4))
  return near.reduce((sum, s) => sum + s, 0) / near.length
}

/**
 * The greatest whole number of the time base that all steps are multiples of. Where all are multiples of the
 * smallest step, nothing shows how they were rounded, and it is the time base itself.
 */
function coarsestTick(steps: readonly number[]): number {
  const all = steps.reduce(greatestCommonDivisor, 0)
  return steps.includes(all) ? 1 : all
}

const greatestCommonDivisor = (a: number, b: number): number =>
  b === 0 ? a : greatestCommonDivisor(b, a % b)

/** The frames' places on a grid of this step, counted from 0; a step is at least one place. */
function placesOn(steps: readonly number[], step: number): number[] {
  const places = [0]
  for (const s of steps) places.push(places.at(-1)! + Math.max(1, Math.round(s / step)))
  return places
}

/** Rates that cameras film and files play at: common practice, no source. */
const usualRates = [
  24, 25, 30, 48, 50, 60, 90, 100, 120, 180, 200, 240, 250, 300, 400, 480, 500, 600, 960, 1000,
]

/**
 * A usual rate, or one of them · 1000/1001 as television has it (SMPTE ST 12-1), when it lies within the
 * tolerance of `fps`; else `fps` itself. Rounding moves each end of a clip by half a tick at most, so it is
 * off by no more than tick / duration.
 */
function usualFps(fps: number, relativeTolerance: number): number {
  const off = (rate: number) => Math.abs(fps / rate - 1)
  const nearest = (rates: number[]) => rates.reduce((best, rate) => (off(rate) < off(best) ? rate : best))
  const television = usualRates.map(rate => (rate * 1000) / 1001)
  const fits = (rate: number) => off(rate) <= relativeTolerance + 1e-6
  return [nearest(usualRates), nearest(television)].find(fits) ?? fps
}

function spreadAround(places: readonly number[], ticks: readonly number[], interval: number): number {
  let low = Number.POSITIVE_INFINITY
  let high = Number.NEGATIVE_INFINITY
  for (const [i, place] of places.entries()) {
    const off = ticks[i]! - place * interval
    low = Math.min(low, off)
    high = Math.max(high, off)
  }
  return high - low
}

/** Steps of two intervals or more that fit a whole number of them within rounding and a quarter interval. */
function gapsIn(steps: readonly number[], interval: number, tick: number): TimestampPattern['gaps'] {
  return steps.flatMap((step, afterFrame) => {
    const places = Math.round(step / interval)
    const fits = Math.abs(step - places * interval) <= Math.max(1.5 * tick, interval / 4)
    return places >= 2 && fits ? [{ afterFrame, missing: places - 1 }] : []
  })
}
