import type { PlacedSighting } from '../contract/bench.ts'
import type { Outline } from '../contract/marks.ts'
import type { Reading } from '../contract/reading.ts'
import { ballView, heightOverRim, pixelOf, placeAt } from '../geometry/ball-view.ts'
import { rotationFromVector, turned, turnedBack } from '../geometry/rotation.ts'
import { scaled, sum, unit, type Vector } from '../geometry/vector.ts'
import { radPerSecondOfRpm } from '../units/rate.ts'

/** A place on the ball as it was pointed at in one frame, px of the picture. */
export type Pointed = { frame: number; xPx: number; yPx: number }

/** A flight that was read by itself: what turns one mark into marks in all frames. */
export type ReadFlight = {
  reading: Pick<Reading, 'rpm' | 'axis'>
  /** Every frame with an outline; real time at the middle of its first row's exposure. */
  frames: readonly { frame: number; timeSeconds: number; outline: Outline }[]
  picture: { widthPx: number; heightPx: number }
  readoutSeconds: number
  /** As given or as estimated with the rotation; null: a far view. */
  focalLengthPx: number | null
}

/** Nearer to the rim than this, in radii, nobody can say whether a mark shows. */
const doubtfulHeight = 0.06

/**
 * Where a mark that was pointed at lies in every frame of a flight, by the rotation read from its surface; pointed
 * at in several frames, the mean of what they say, so that one nudge moves the rest. Behind the rim it is
 * hidden, close to the rim and outside the picture nothing is proposed. A frame in which it was pointed at keeps that
 * place. Empty without a figure, or when it was pointed at in no frame with an outline.
 */
export function proposeMark(mark: string, pointed: readonly Pointed[], flight: ReadFlight): PlacedSighting[] {
  const { reading, frames, picture, focalLengthPx } = flight
  const { rpm, axis } = reading
  if (rpm === null || !axis) return []
  const rotation = scaled([axis.x, axis.y, axis.z], radPerSecondOfRpm(rpm))
  const rowSeconds = flight.readoutSeconds / picture.heightPx
  const camera = focalLengthPx && {
    focalPx: focalLengthPx,
    xPx: picture.widthPx / 2,
    yPx: picture.heightPx / 2,
  }
  const start = frames[0]?.timeSeconds ?? 0
  const poseAt = (timeSeconds: number, yPx: number) =>
    rotationFromVector(scaled(rotation, timeSeconds - start + rowSeconds * yPx))
  const views = new Map(
    frames.map((one, i) => [
      one.frame,
      { ...one, view: ballView(one.outline, camera || null), drift: driftOf(frames, i, rowSeconds) },
    ]),
  )

  let place: Vector = [0, 0, 0]
  for (const { frame, xPx, yPx } of pointed) {
    const there = views.get(frame)
    if (!there) continue
    const down = yPx - there.outline.yPx
    const seen = placeAt(there.view, xPx - there.drift.x * down, yPx - there.drift.y * down)
    // What is seen from the side is known less well.
    const weight = Math.max(heightOverRim(there.view, seen), 0.02)
    place = sum(place, scaled(turnedBack(poseAt(there.timeSeconds, yPx), seen), weight))
  }
  if (Math.hypot(...place) === 0) return []
  const own = unit(place)
  const byHand = new Map(pointed.map(one => [one.frame, one]))
  return [...views.values()].flatMap(({ frame, timeSeconds, outline, view, drift }): PlacedSighting[] => {
    const hand = byHand.get(frame)
    if (hand) return [{ kind: 'point', frame, mark, xPx: hand.xPx, yPx: hand.yPx }]
    let [xPx, yPx, height] = [0, outline.yPx, 0]
    // The row at which the turning place meets the sensor's readout: it settles, as a row is short against a turn.
    for (let round = 0; round < 5; round++) {
      const u = turned(poseAt(timeSeconds, yPx), own)
      height = heightOverRim(view, u)
      const down = yPx - outline.yPx
      const [x, y] = pixelOf(view, u)
      xPx = x + drift.x * down
      yPx = y + drift.y * down
    }
    if (height < -doubtfulHeight) return [{ kind: 'hidden', frame, mark }]
    // The picture's edge may cut the ball.
    const isInside = xPx >= 0 && yPx >= 0 && xPx <= picture.widthPx && yPx <= picture.heightPx
    return height < doubtfulHeight || !isInside ? [] : [{ kind: 'point', frame, mark, xPx, yPx }]
  })
}

/** How far the ball goes on while the sensor reads one row, px. */
function driftOf(frames: ReadFlight['frames'], i: number, rowSeconds: number): { x: number; y: number } {
  const [a, b] = [frames[Math.max(i - 1, 0)]!, frames[Math.min(i + 1, frames.length - 1)]!]
  const share = b === a ? 0 : rowSeconds / (b.timeSeconds - a.timeSeconds)
  return { x: share * (b.outline.xPx - a.outline.xPx), y: share * (b.outline.yPx - a.outline.yPx) }
}
