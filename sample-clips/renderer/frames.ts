import { type Backdrop, paintBackdrop } from './backdrops.ts'
import { emptyPlanes, makeDeveloper, toPlanes } from './develop.ts'
import { expose } from './expose.ts'
import { swayAt } from './motion.ts'
import { project } from './outline.ts'
import { randomFrom } from './random.ts'
import { ballRegion, momentsOf, type Region, regionAround } from './region.ts'
import type { Scene } from './scene.ts'
import { throwShadow } from './shadow.ts'
import { makeShellTracer } from './shell.ts'
import { makeSlabTracer, type SlabTracer } from './slab.ts'

/** Captured frames that were written, in order: the file's frame n is the capture's frame `written[n]`. */
export const writtenFrames = ({ captured, camera }: Scene): number[] =>
  Array.from({ length: captured }, (_, i) => i).filter(i => !camera.dropped.includes(i))

/** The room as it shows with the camera swayed by (dx, dy) pixels. */
function swayed(backdrop: Backdrop, widthPx: number, heightPx: number, dx: number, dy: number): Float32Array {
  const { marginPx, rgb } = backdrop
  if (marginPx === 0) return rgb
  const out = new Float32Array(widthPx * heightPx * 3)
  const [fx, fy] = [marginPx - dx, marginPx - dy]
  const [ix, iy] = [Math.floor(fx), Math.floor(fy)]
  const [a, b] = [fx - ix, fy - iy]
  const stride = backdrop.widthPx * 3
  for (let row = 0; row < heightPx; row++)
    for (let i = 0; i < widthPx * 3; i++) {
      const at = (row + iy) * stride + ix * 3 + i
      const top = rgb[at]! * (1 - a) + rgb[at + 3]! * a
      const bottom = rgb[at + stride]! * (1 - a) + rgb[at + stride + 3]! * a
      out[row * widthPx * 3 + i] = top * (1 - b) + bottom * b
    }
  return out
}

/** Mean light of the lamp, against no flicker, while a row centred on t is open. */
function lampGain({ flicker, camera }: Scene, t: number): number {
  if (flicker === null) return 1
  const turn = 4 * Math.PI * flicker.mainsHz
  const half = (turn * camera.exposureSeconds) / 2
  return 1 + flicker.depth * Math.cos(turn * t) * (half === 0 ? 1 : Math.sin(half) / half)
}

function movingRegions(scene: Scene, t: number, slab: SlabTracer | null): Region[] {
  const [dx, dy] = swayAt(scene, t)
  const ball = ballRegion(scene, t)
  const corners = slab === null ? [] : momentsOf(scene, t).flatMap(slab.corners)
  const board = regionAround(
    corners.map(corner => project(corner, scene.camera)).map(([x, y]) => [x + dx, y + dy] as const),
    3,
    scene.camera,
  )
  const found = [ball, board].filter(region => region !== null)
  if (found.length < 2) return found
  const [a, b] = found as [Region, Region]
  const apart = a.right <= b.left || b.right <= a.left || a.bottom <= b.top || b.bottom <= a.top
  if (apart) return found
  return [
    {
      left: Math.min(a.left, b.left),
      top: Math.min(a.top, b.top),
      right: Math.max(a.right, b.right),
      bottom: Math.max(a.bottom, b.bottom),
    },
  ]
}

/** The clip's frames in order, as yuv420p bytes. Only what moves is drawn anew in each. */
export function* renderFrames(scene: Scene): Generator<Uint8Array<ArrayBuffer>> {
  const { widthPx, heightPx, fps, readoutSeconds, shakePx } = scene.camera
  const backdrop = paintBackdrop(scene)
  const shell = makeShellTracer(scene)
  const slab = scene.paddle === null ? null : makeSlabTracer(scene, scene.paddle)
  const develop = makeDeveloper(scene.camera, randomFrom(`noise ${scene.seed}`))
  const whole: Region = { left: 0, top: 0, right: widthPx, bottom: heightPx }
  const planes = emptyPlanes(widthPx, heightPx)
  let still = swayed(backdrop, widthPx, heightPx, 0, 0)
  const light = new Float32Array(still)
  toPlanes(light, whole, planes)
  let dirty: Region[] = []

  for (const capture of writtenFrames(scene)) {
    const t = capture / fps
    if (shakePx > 0) {
      still = swayed(backdrop, widthPx, heightPx, ...swayAt(scene, t))
      dirty = [whole]
    }
    for (const { left, top, right, bottom } of dirty)
      for (let row = top; row < bottom; row++) {
        const [from, to] = [(row * widthPx + left) * 3, (row * widthPx + right) * 3]
        light.set(still.subarray(from, to), from)
      }
    const shadows = throwShadow(scene, t, light)
    const moving = movingRegions(scene, t, slab)
    for (const region of moving) expose(scene, t, region, light, shell, slab)
    for (const region of [...dirty, ...shadows, ...moving]) toPlanes(light, region, planes)
    dirty = [...shadows, ...moving]
    yield develop(planes, row => lampGain(scene, t + (readoutSeconds * (row + 0.5)) / heightPx))
  }
}
