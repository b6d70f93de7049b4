import type { Reading } from '../../../core/contract/reading.ts'
import type { ReadClip } from '../../../electron/vision/read-clip.ts'
import type { Truth, TruthFlight } from '../../../sample-clips/renderer/truth-form.ts'

/** One flight of the truth, and what was read of it. */
export type Verdict = {
  clip: string
  flight: number
  heldOut: boolean
  /** Rate below the camera's ceiling: half a turn a frame, and a smear of at most 45°. */
  belowCeiling: boolean
  reading: Reading | null
  rateErrorPercent: number | null
  axisErrorDeg: number | null
  covered: boolean | null
  wrongAliasCalledClear: boolean
  centreErrorsPx: number[]
  radiusErrorsPercent: number[]
  framesWhole: number
  framesFound: number
  why: string
}

/** Beyond this a rate is another rate, not a bad measurement of the true one. */
const anotherRatePercent = 5

export function verdictsOf(
  truth: Truth,
  read: ReadClip | null,
  heldOut: boolean,
  failure: string,
): Verdict[] {
  return truth.flights.map((flight, k) => {
    const at = read ? bestFor(flight, read.readings) : -1
    const reading = at >= 0 ? read!.readings[at]! : null
    const outlines = at >= 0 ? (read!.outlines[at] ?? []) : []
    const byFrame = new Map(flight.frames.map(frame => [frame.index, frame]))
    const both = outlines.flatMap(({ frame, outline }) => {
      const there = byFrame.get(frame)
      return there ? [{ there, outline }] : []
    })
    const rpm = reading?.rpm ?? null
    const rateErrorPercent = rpm === null ? null : 100 * Math.abs(rpm / flight.rpm - 1)
    const { fps, exposureSeconds } = truth.capture
    return {
      clip: truth.clip,
      flight: k,
      heldOut,
      belowCeiling: flight.rpm < 30 * fps && flight.rpm * 6 * exposureSeconds < 45,
      reading,
      rateErrorPercent,
      axisErrorDeg: reading?.axis ? angleDeg(reading.axis, flight.axis) : null,
      covered: reading?.band ? reading.band.lowRpm <= flight.rpm && flight.rpm <= reading.band.highRpm : null,
      wrongAliasCalledClear: reading?.flag === 'clear' && rateErrorPercent! > anotherRatePercent,
      centreErrorsPx: both.map(({ there, outline }) =>
        Math.hypot(outline.xPx - there.xPx, outline.yPx - there.yPx),
      ),
      radiusErrorsPercent: both.map(
        ({ there, outline }) => 100 * Math.abs(outline.radiusPx / there.radiusPx - 1),
      ),
      framesWhole: flight.frames.length,
      framesFound: both.length,
      why: failure || (reading ? (reading.reasons[0] ?? '') : 'not found'),
    }
  })
}

/** The reading whose window shares most frames with the flight; −1 when none does. */
function bestFor(flight: TruthFlight, readings: readonly Reading[]): number {
  const shared = readings.map(
    ({ window }) =>
      Math.min(window.toFrame, flight.lastFrame) - Math.max(window.fromFrame, flight.firstFrame) + 1,
  )
  const most = Math.max(...shared)
  return most > 0 ? shared.indexOf(most) : -1
}

type Axis = { x: number; y: number; z: number }
const angleDeg = (a: Axis, b: Axis): number =>
  (Math.acos(Math.max(-1, Math.min(1, a.x * b.x + a.y * b.y + a.z * b.z))) * 180) / Math.PI
