import { WhorlError } from '../../core/contract/problem.ts'
import type { Look, Size } from '../../core/contract/publish.ts'
import { ballView } from '../../core/geometry/ball-view.ts'
import { turnedBackPlaces } from '../../core/geometry/turned-back.ts'
import { scaled, type Vector } from '../../core/geometry/vector.ts'
import { outlineAt } from '../../core/marking/outline-at.ts'
import type { Scene } from '../../core/picture/scene.ts'
import { type TurnedTile, turnedFrames, turnedStrip } from '../../core/picture/turned-strip.ts'
import { radPerSecondOfRpm } from '../../core/units/rate.ts'
import type { Media } from '../media/media.ts'
import type { HitEvidence } from './hit-evidence.ts'
import { photographOf } from './hit-pictures.ts'
import { ballAt, pngBase64, type Rgba, sampledAt } from './photograph.ts'

const sidePx = 160

/** Every ball as it was filmed and as the reading turns it back. Throws `hit-no-outline`, `hit-no-axis`. */
export async function turnedBackScene(
  media: Media,
  hit: HitEvidence,
  look: Look,
  size: Size,
): Promise<Scene> {
  const rotation = rotationOf(hit)
  const frames = turnedFrames(hit, look, size)
  const first = viewOf(hit, frames[0]!)
  const rowSeconds = (hit.session.camera.readoutSeconds ?? 0) / hit.clip.probe!.heightPx
  const tiles: TurnedTile[] = []
  for (const frame of frames) {
    const picture = await photographOf(media, hit, frame)
    const own = viewOf(hit, frame)
    const places = turnedBackPlaces(first, own, rotation, sidePx, rowSeconds)
    const asFilmed = ballAt(own.view.outline, sidePx)
    tiles.push({ frame, pngBase64: png(picture, asFilmed), turnedPngBase64: png(picture, places) })
  }
  return turnedStrip(hit, tiles, look, size)
}

const png = (picture: Rgba, places: Float32Array) => pngBase64(sampledAt(picture, places, sidePx))

/** Radians a second, camera axes. A reading by the bearing alone takes the axis to face the camera. */
function rotationOf({ reading: { axis, rpm, sense }, clip }: HitEvidence): Vector {
  if (rpm === null || (axis === null && sense === null))
    throw new WhorlError('hit-no-axis', { clip: clip.name })
  const unit: Vector = axis ? [axis.x, axis.y, axis.z] : [0, 0, sense === 'clockwise' ? 1 : -1]
  return scaled(unit, radPerSecondOfRpm(rpm))
}

function viewOf({ clip, marks, timesSeconds, focalLengthPx: focalPx }: HitEvidence, frame: number) {
  const outline = outlineAt(marks, frame, timesSeconds)
  if (outline === null || !clip.probe) throw new WhorlError('hit-no-outline', { clip: clip.name })
  const camera =
    focalPx === null ? null : { focalPx, xPx: clip.probe.widthPx / 2, yPx: clip.probe.heightPx / 2 }
  return { view: ballView(outline, camera), timeSeconds: timesSeconds[frame] ?? 0 }
}
