import { flightAt, poseAt, positionAt, surfaceSpeedPx, swayAt } from './motion.ts'
import { outlineOf } from './outline.ts'
import { centreAt, type Region } from './region.ts'
import type { Scene } from './scene.ts'
import { POSE_NUMBERS, type ShellTracer } from './shell.ts'
import type { SlabTracer } from './slab.ts'

/** Moments into which one exposure is cut. */
const MOMENTS = 64
/** Fewest and most looks at the ball a pixel, and looks where only the plain board can be. */
const LOOKS = [16, 64] as const
const BOARD_LOOKS = 6

/** The ball's pose at even moments from `from` on, one row of POSE_NUMBERS each. */
function poseTable(scene: Scene, from: number, step: number, count: number): Float64Array {
  const table = new Float64Array(count * POSE_NUMBERS)
  for (let i = 0; i < count; i++) {
    const t = from + (i + 0.5) * step
    table.set(positionAt(flightAt(scene.flights, t), t), i * POSE_NUMBERS)
    table.set(poseAt(scene.ball, scene.flights, t), i * POSE_NUMBERS + 3)
  }
  return table
}

/** Offsets −1…1 of a tent, for even u in 0…1: a pixel's square widened by a lens. */
const tent = Float64Array.from({ length: 256 }, (_, i) => {
  const u = (i + 0.5) / 256
  return u < 0.5 ? Math.sqrt(2 * u) - 1 : 1 - Math.sqrt(2 - 2 * u)
})

/**
 * Adds the moving things to a picture of linear light that already holds what stands still, within `region`.
 *
 * Each pixel is the mean of many looks, spread evenly over the pixel and its row's exposure: row y is open
 * for `exposureSeconds` about t + readout·y/H. Looks of one pixel are stratified in time and follow the
 * R2 sequence in the plane; each pixel shifts them by its own hash, so that smear has no steps.
 */
export function expose(
  scene: Scene,
  t: number,
  region: Region,
  rgb: Float32Array,
  shell: ShellTracer,
  slab: SlabTracer | null,
): void {
  const { camera } = scene
  const exposure = Math.max(camera.exposureSeconds, 1e-7)
  const step = exposure / MOMENTS
  const perRow = camera.readoutSeconds / camera.heightPx
  const from = t + perRow * (region.top + 0.5) - exposure / 2
  const rows = region.bottom - region.top
  const poses = poseTable(scene, from, step, MOMENTS + Math.ceil((perRow * rows) / step) + 1)
  const smearPx = surfaceSpeedPx(scene, flightAt(scene.flights, t)) * exposure
  const ballLooks = Math.max(LOOKS[0], Math.min(LOOKS[1], Math.ceil(smearPx * 0.8)))
  const [swayX, swayY] = swayAt(scene, t)
  const [middleX, middleY] = [camera.widthPx / 2 + swayX, camera.heightPx / 2 + swayY]
  const spread = 0.5 + camera.lensBlurPx
  const f = camera.focalLengthPx

  // The ball's middle at the first and last moment of a row's exposure: it stays near the line between.
  const { radialPx, tangentialPx } = outlineOf(centreAt(scene, t), scene.ball.diameterMetres / 2, camera)
  const reach = (Math.max(radialPx, tangentialPx) + spread + 3) ** 2
  const track = new Float64Array(4)
  const onPicture = (table: Float64Array, at: number, axis: number) =>
    (f * table[at + axis]!) / table[at + 2]!
  const isNear = (x: number, y: number) => {
    const alongX = track[2]! - track[0]!
    const alongY = track[3]! - track[1]!
    const length2 = alongX * alongX + alongY * alongY
    const share = ((x - track[0]!) * alongX + (y - track[1]!) * alongY) / Math.max(length2, 1e-9)
    const k = Math.max(0, Math.min(1, share))
    return (x - track[0]! - k * alongX) ** 2 + (y - track[1]! - k * alongY) ** 2 < reach
  }

  for (let row = region.top; row < region.bottom; row++) {
    const rowStart = Math.round((perRow * (row - region.top)) / step)
    for (let p = 0; p < 4; p++)
      track[p] = onPicture(poses, (rowStart + (p >> 1) * (MOMENTS - 1)) * POSE_NUMBERS, p & 1)
    for (let column = region.left; column < region.right; column++) {
      const nearBall = isNear(column + 0.5 - middleX, row + 0.5 - middleY)
      if (!nearBall && slab === null) continue
      const looks = nearBall ? ballLooks : BOARD_LOOKS
      let h =
        Math.imul(column, 0x9e3779b1) ^ Math.imul(row, 0x85ebca6b) ^ Math.imul(scene.seed + 1, 0xc2b2ae35)
      h = Math.imul(h ^ (h >>> 15), 0x2c1b3c6d)
      h = Math.imul(h ^ (h >>> 12), 0x297a2d39)
      h ^= h >>> 15
      const shiftX = h & 255
      const shiftY = (h >>> 8) & 255
      const shiftT = ((h >>> 16) & 255) / 256
      let r = 0
      let g = 0
      let b = 0
      let hits = 0
      for (let k = 0; k < looks; k++) {
        // R2 sequence, Martin Roberts: steps 1/ρ and 1/ρ², ρ³ = ρ + 1; here in 256ths.
        const x = column + 0.5 + spread * tent[(shiftX + k * 193.2487) & 255]! - middleX
        const y = row + 0.5 + spread * tent[(shiftY + k * 145.8791) & 255]! - middleY
        const moment = rowStart + ((((k + shiftT) * MOMENTS) / looks) | 0)
        const inverse = 1 / Math.sqrt(x * x + y * y + f * f)
        const dx = x * inverse
        const dy = y * inverse
        const dz = f * inverse
        const ball = nearBall && shell.trace(dx, dy, dz, poses, moment * POSE_NUMBERS)
        const board = slab?.trace(dx, dy, dz, from + (moment + 0.5) * step) ?? false
        if (!ball && !board) continue
        const met = ball && !(board && slab!.met[3]! < shell.met[3]!) ? shell.met : slab!.met
        r += met[0]!
        g += met[1]!
        b += met[2]!
        hits++
      }
      if (hits === 0) continue
      const i = (row * camera.widthPx + column) * 3
      const clear = (looks - hits) / looks
      rgb[i] = rgb[i]! * clear + r / looks
      rgb[i + 1] = rgb[i + 1]! * clear + g / looks
      rgb[i + 2] = rgb[i + 2]! * clear + b / looks
    }
  }
}
