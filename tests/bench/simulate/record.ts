import type { Reading } from '../../../core/contract/reading.ts'
import { readMarks } from '../../../core/spin/read-marks.ts'
import { boundOf } from './bound.ts'
import type { Cell } from './factors.ts'
import { type SimulatedHit, simulateHit } from './hit.ts'
import { inner, type P3 } from './space.ts'

/** What became of one simulated hit. */
export type HitRecord = {
  seed: number
  cell: Cell
  method: Reading['method']
  flag: Reading['flag']
  truthRpm: number
  rpm: number | null
  standardUncertaintyRpm: number | null
  /** The band holds the truth. */
  covered: boolean
  /** More than five of its own standard uncertainties and 5 % off: another rate than the true one. */
  isOtherRate: boolean
  /** Width of the band over that of counting. */
  bandOverCounting: number | null
  boundRpm: number | null
  spanSeconds: number
  boundAxisDeg: number | null
  axisErrorDeg: number | null
  /** Half-angle of the cone that should hold the axis at 95 %. */
  axisConeDeg: number | null
  milliseconds: number
}

export function recordOf(seed: number): HitRecord {
  const hit = simulateHit(seed)
  const begun = performance.now()
  const reading = readMarks(hit.document)
  const milliseconds = performance.now() - begun
  const { rpm, band, counted, standardUncertaintyRpm: u } = reading
  const truthRpm = hit.truth.rpm
  const error = rpm === null ? Number.NaN : Math.abs(rpm - truthRpm)
  const isClear = reading.flag === 'clear'
  const bound = isClear ? boundOf(hit) : null
  return {
    seed,
    cell: { ...hit.cell, method: reading.method },
    method: reading.method,
    flag: reading.flag,
    truthRpm,
    rpm,
    standardUncertaintyRpm: u,
    covered: band !== null && band.lowRpm <= truthRpm && truthRpm <= band.highRpm,
    isOtherRate: rpm !== null && isOther(reading, hit, error),
    bandOverCounting:
      band && counted ? (band.highRpm - band.lowRpm) / (counted.highRpm - counted.lowRpm) : null,
    boundRpm: bound?.rpm ?? null,
    spanSeconds: spanOf(hit),
    boundAxisDeg: bound?.axisDeg ?? null,
    axisErrorDeg:
      reading.axis && degBetween([reading.axis.x, reading.axis.y, reading.axis.z], hit.truth.axis),
    axisConeDeg: reading.axis?.coneDeg ?? null,
    milliseconds,
  }
}

function isOther({ standardUncertaintyRpm }: Reading, hit: SimulatedHit, error: number): boolean {
  return error > 5 * standardUncertaintyRpm! && error > 0.05 * hit.truth.rpm
}

/** From the first sighting to the last. */
function spanOf({ scene, sightings }: SimulatedHit): number {
  const times = sightings.map(s => scene.frameSeconds[s.frame]!)
  return Math.max(...times) - Math.min(...times)
}

const degBetween = (a: P3, b: P3) => (Math.acos(Math.min(Math.max(inner(a, b), -1), 1)) * 180) / Math.PI
