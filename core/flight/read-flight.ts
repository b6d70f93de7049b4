import type { Marks, Outline } from '../contract/marks.ts'
import type { Reading } from '../contract/reading.ts'
import { launchAngle, spinParts } from '../geometry/spin-parts.ts'
import { unit, type Vector } from '../geometry/vector.ts'
import { velocityOf } from '../geometry/velocity.ts'
import { assumed } from '../spin/assumptions.ts'
import type { NotMeasured } from '../spin/estimate.ts'
import { readingOf, unreadOf } from '../spin/reading-of.ts'
import { partsInRpm } from '../spin/split-on-flight.ts'
import { degOfRad } from '../units/angle.ts'
import { radPerSecondOfRpm } from '../units/rate.ts'
import { readSurface, type SurfaceReading } from '../vision/surface/read-surface.ts'
import { surfaceMark, surfaceObservations } from '../vision/surface/report.ts'
import type { SurfaceFrame, SurfaceInput } from '../vision/surface/surface-input.ts'

/** What is known of the camera and the ball beside the pictures. */
export type Known = Pick<Marks, 'capture' | 'picture' | 'ball' | 'plausible'>
export type FlightReading = { reading: Reading; surface: SurfaceReading | null }

/**
 * One flight as a reading: the rotation from the surface, its band, flag and candidates by core/spin's own rules,
 * the flight's speed and angle by the ball's size, and the spin split on the flight. A flight that cannot be
 * read has a reading without a figure, with the reason and the way out. Frames in order of time.
 */
export function readFlight(frames: readonly SurfaceFrame[], known: Known): FlightReading {
  const { capture, picture, ball, plausible } = known
  const input: SurfaceInput = {
    frames: [...frames],
    picture,
    fps: capture.fps,
    exposureSeconds: capture.exposureSeconds ?? null,
    readoutSeconds: capture.readoutSeconds ?? null,
    focalLengthPx: capture.focalLengthPx ?? null,
    maxRateRadPerSecond: radPerSecondOfRpm(plausible?.maxRpm ?? assumed.maxRpm),
  }
  const o = surfaceObservations(input, {
    ballDiameterMetres: ball.diameterMetres,
    sense: plausible?.sense ?? null,
    captureRelativeUncertainty: capture.relativeUncertainty ?? null,
    readoutUncertaintySeconds: capture.readoutUncertaintySeconds ?? null,
  })
  const marks = marksOf(known, frames)
  const surface = readSurface(input, o)
  const isRead = !('measured' in surface)
  const reading: Reading = isRead
    ? withAxes(readingOf(marks, surface.estimate, o), surface.rotations)
    : unread(marks, surface)
  const half = picture.widthPx / 2
  const focalPx = capture.focalLengthPx ?? (isRead ? surface.solution.focalPx : half / assumed.viewTangent)
  const velocity = velocityOf(frames, { focalPx, xPx: half, yPx: picture.heightPx / 2 }, ball.diameterMetres)
  const parts =
    velocity && isRead && spinParts(surface.estimate.rotationRadPerSecond, velocity.metresPerSecond)
  return {
    surface: isRead ? surface : null,
    reading: {
      ...reading,
      parts: parts ? partsInRpm(parts) : null,
      flight: velocity && {
        speedMetresPerSecond: Math.hypot(...velocity.metresPerSecond),
        launchAngleDeg: degOfRad(launchAngle(velocity.metresPerSecond)),
        standardUncertaintySpeed: velocity.speedUncertainty,
      },
    },
  }
}

const unread = (marks: Marks, why: NotMeasured): Reading => ({ ...unreadOf(marks, why), method: 'surface' })

/** Rotations that explain one surface may turn about different axes. */
function withAxes(reading: Reading, rotations: readonly Vector[]): Reading {
  const candidates = reading.candidates.map((candidate, i) => {
    const [x, y, z] = unit(rotations[i]!)
    return { ...candidate, axis: { x, y, z } }
  })
  return { ...reading, candidates }
}

function marksOf(known: Known, frames: readonly { index: number; outline: Outline }[]): Marks {
  return {
    schema: 'whorl.marks/1',
    ...known,
    marks: [surfaceMark],
    frames: frames.map(({ index, outline }) => ({ index, outline, seen: [] })),
  }
}
