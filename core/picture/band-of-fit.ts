import type { Reading } from '../contract/reading.ts'
import type { Series } from './series.ts'

/** Degrees a second for one rpm. */
const degPerRpm = 6

/**
 * Half-width of the fit's band along its line, degrees at a time: what the mean position of the points
 * leaves open, and the band of the rate, which opens to both ends (JCGM 100:2008, H.3: slope and a point
 * at the centre of the data are uncorrelated).
 */
export function bandHalfDegOf(reading: Reading, series: readonly Series[]): (timeSeconds: number) => number {
  const points = series.flatMap(each => each.points).filter(point => point.residualDeg !== null)
  const total = points.reduce((sum, point) => sum + point.weight, 0)
  if (!reading.band || total === 0) return () => 0
  const centre = points.reduce((sum, point) => sum + point.weight * point.timeSeconds, 0) / total
  const squares = points.reduce((sum, point) => sum + point.weight * (point.residualDeg ?? 0) ** 2, 0)
  const mean = (2 * Math.sqrt(squares / total)) / Math.sqrt(total)
  const rate = degPerRpm * ((reading.band.highRpm - reading.band.lowRpm) / 2)
  return timeSeconds => Math.hypot(mean, rate * (timeSeconds - centre))
}
