import { ballView } from '../../../../core/geometry/ball-view.ts'
import { turnedBackPlaces } from '../../../../core/geometry/turned-back.ts'
import { scaled, type Vector } from '../../../../core/geometry/vector.ts'
import { radPerSecondOfRpm } from '../../../../core/units/rate.ts'
import type { BenchState } from '../state/bench-state.ts'
import { focalLengthOf } from '../state/proposed.ts'
import { outlineOf } from '../state/seen.ts'

/**
 * The rotation of the reading, radians a second, camera axes; of the candidate that is looked at, where one is.
 * A candidate without an axis of its own turns about the reading's, the other way round where its sense is the
 * other. Null without an axis.
 */
export function rotationShown({ live: { reading }, overlaid }: BenchState): Vector | null {
  if (!reading?.axis || reading.rpm === null) return null
  const { axis, sense, candidates } = reading
  const candidate = overlaid === null ? null : candidates[overlaid]
  const isOther = candidate?.sense != null && sense !== null && candidate.sense !== sense
  const rate = radPerSecondOfRpm(candidate?.rpm ?? reading.rpm)
  if (candidate?.axis) return scaled([candidate.axis.x, candidate.axis.y, candidate.axis.z], rate)
  return scaled([axis.x, axis.y, axis.z], isOther ? -rate : rate)
}

type Drawable = CanvasImageSource & { width: number; height: number }

/**
 * A frame's ball turned back to its pose in the first frame, as a square picture of the ball alone; what the
 * frame does not see of it stays empty. Null where the ball's place is not known.
 */
export function turnedBackPicture(
  picture: Drawable,
  state: BenchState,
  frame: number,
  rotation: Vector,
  sidePx: number,
): OffscreenCanvas | null {
  const { probe } = state.clip
  const start = state.marks.window.fromFrame
  const [outline, firstOutline] = [outlineOf(state, frame), outlineOf(state, start)]
  if (!probe || !outline || !firstOutline) return null
  const focalPx = focalLengthOf(state, state.hit)
  const camera = focalPx === null ? null : { focalPx, xPx: probe.widthPx / 2, yPx: probe.heightPx / 2 }
  const view = (of: typeof outline, index: number) => ({
    view: ballView(of, camera),
    timeSeconds: state.timesSeconds[index] ?? 0,
  })
  const rowSeconds = (state.session.camera.readoutSeconds ?? 0) / probe.heightPx
  const places = turnedBackPlaces(
    view(firstOutline, start),
    view(outline, frame),
    rotation,
    sidePx,
    rowSeconds,
  )
  const scale = picture.width / probe.widthPx
  const near = pixelsAround(picture, outline, scale)
  if (!near) return null
  const ball = new OffscreenCanvas(sidePx, sidePx)
  ball.getContext('2d')?.putImageData(sampled(near, places, sidePx, scale), 0, 0)
  return ball
}

type Near = { xPx: number; yPx: number; pixels: ImageData }

/** The pixels of the picture around the ball. */
function pixelsAround(
  picture: Drawable,
  outline: { xPx: number; yPx: number; radiusPx: number },
  scale: number,
): Near | null {
  const reach = outline.radiusPx * scale + 2
  const xPx = Math.floor(outline.xPx * scale - reach)
  const yPx = Math.floor(outline.yPx * scale - reach)
  const side = Math.ceil(2 * reach) + 1
  const context = new OffscreenCanvas(side, side).getContext('2d', { willReadFrequently: true })
  if (!context) return null
  context.drawImage(picture, -xPx, -yPx)
  return { xPx, yPx, pixels: context.getImageData(0, 0, side, side) }
}

/** Colours between the middles of four pixels. */
function sampled({ xPx, yPx, pixels }: Near, places: Float32Array, side: number, scale: number): ImageData {
  const to = new ImageData(side, side)
  const { width, height, data } = pixels
  for (let i = 0; i < side * side; i++) {
    const x = places[2 * i]! * scale - xPx - 0.5
    const y = places[2 * i + 1]! * scale - yPx - 0.5
    const column = Math.floor(x)
    const row = Math.floor(y)
    // What was not seen has no place, and no comparison with it holds.
    if (!(column >= 0 && row >= 0 && column < width - 1 && row < height - 1)) continue
    const at = 4 * (row * width + column)
    for (let channel = 0; channel < 3; channel++) {
      const value = (offset: number) => data[at + offset + channel]!
      const top = value(0) + (x - column) * (value(4) - value(0))
      const bottom = value(4 * width) + (x - column) * (value(4 * width + 4) - value(4 * width))
      to.data[4 * i + channel] = top + (y - row) * (bottom - top)
    }
    to.data[4 * i + 3] = 255
  }
  return to
}
