import type { BenchMark } from '../contract/bench.ts'
import { nearest, startOfLine } from './unwrap.ts'

/** One sighting as the plots draw it. Angles in degrees, real time in seconds. */
export type SeriesPoint = {
  frame: number
  timeSeconds: number
  /** On the line's own turn: whole repeats are added until it lies nearest to the fit. */
  deg: number
  /** Seen minus fitted; null while there is no fit. */
  residualDeg: number | null
  residualPx: number | null
  /** How much the fit trusts it, 0 to 1. */
  weight: number
}
export type Line = { startDeg: number; degPerSecond: number }
/** One mark's points and the line that the fit puts through them. */
export type Series = { mark: BenchMark; points: SeriesPoint[]; hiddenFrames: number[]; line: Line | null }

export const degOnLine = (line: Line, timeSeconds: number) => line.startDeg + line.degPerSecond * timeSeconds

const repeatDegOf = (mark: BenchMark) => 360 / mark.symmetryOrder

/** The same line some whole repeats up or down, so that it passes nearest to an angle at a time. */
export function lineNear(line: Line, timeSeconds: number, deg: number, repeatDeg: number): Line {
  const there = degOnLine(line, timeSeconds)
  return { ...line, startDeg: line.startDeg + nearest(there, deg, repeatDeg) - there }
}

/**
 * The same points laid on another rate: the turn of each that lies nearest to that rate's best line, which
 * starts where the points start.
 */
export function laidOn(series: Series, degPerSecond: number): Series {
  const repeatDeg = repeatDegOf(series.mark)
  const first = series.points[0]
  if (!first) return series
  const best = { startDeg: startOfLine(series.points, degPerSecond, repeatDeg), degPerSecond }
  const line = lineNear(best, first.timeSeconds, first.deg, repeatDeg)
  return {
    ...series,
    line,
    points: series.points.map(point => {
      const onLine = degOnLine(line, point.timeSeconds)
      const deg = nearest(point.deg, onLine, repeatDeg)
      return { ...point, deg, residualDeg: deg - onLine }
    }),
  }
}

/** Lowest and highest value, with the same room below and above; null for no value. */
export function spread(values: Iterable<number>, room: number): { low: number; high: number } | null {
  let low = Number.POSITIVE_INFINITY
  let high = Number.NEGATIVE_INFINITY
  for (const value of values) {
    low = Math.min(low, value)
    high = Math.max(high, value)
  }
  if (low > high) return null
  const margin = Math.max((high - low) * room, 1e-9)
  return { low: low - margin, high: high + margin }
}
