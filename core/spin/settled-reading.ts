import type { HitMarks } from '../contract/bench.ts'
import type { Reading } from '../contract/reading.ts'
import { framesPerRevolutionOfRpm } from '../units/rate.ts'
import { signOfSense } from '../units/sense.ts'

/**
 * A reading at the candidate that a person settled on. Candidates of one reading differ by whole turns between
 * frames, about one axis: the band keeps its width, the axis its line, and the parts go with the rate. The
 * reading as it is when nothing was settled, or when no candidate lies within `tolerance` of it, relative.
 */
export function settledReading(reading: Reading, settled: HitMarks['settled'], tolerance = 0.005): Reading {
  const { rpm, sense, band, axis, parts, candidates } = reading
  if (!settled || rpm === null || !band) return reading
  const chosen = candidates.find(
    one =>
      Math.abs(one.rpm - settled.rpm) <= tolerance * settled.rpm &&
      (one.sense === null || one.sense === settled.sense),
  )
  if (!chosen || chosen === candidates[0]) return reading
  const way = sense === null ? 1 : signOfSense(sense) * signOfSense(settled.sense)
  const share = rpm === 0 ? way : (way * chosen.rpm) / rpm
  const half = (band.highRpm - band.lowRpm) / 2
  const perFrame = reading.rotationPerFrameDeg
  const fps = perFrame === null || perFrame === 0 ? null : (6 * rpm) / perFrame
  return {
    ...reading,
    rpm: chosen.rpm,
    sense: settled.sense,
    band: { ...band, lowRpm: Math.max(chosen.rpm - half, 0), highRpm: chosen.rpm + half },
    axis: axis && {
      ...axis,
      x: way * axis.x,
      y: way * axis.y,
      z: way * axis.z,
      tiltDeg: way === 1 ? axis.tiltDeg : 180 - axis.tiltDeg,
    },
    parts: parts && {
      topspinRpm: share * parts.topspinRpm,
      sidespinRpm: share * parts.sidespinRpm,
      gyroRpm: share * parts.gyroRpm,
    },
    rotationPerFrameDeg: fps === null ? null : (6 * chosen.rpm) / fps,
    framesPerRevolution: fps === null || chosen.rpm === 0 ? null : framesPerRevolutionOfRpm(chosen.rpm, fps),
    // What counting would have said was counted for another rate.
    counted: null,
  }
}
