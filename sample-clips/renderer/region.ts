import { flightAt, positionAt, swayAt } from './motion.ts'
import { outlineOf } from './outline.ts'
import type { Scene } from './scene.ts'
import type { Vec3 } from './vector.ts'

/** Whole pixels from (left, top) up to but not including (right, bottom); even, so that chroma falls in step. */
export type Region = { left: number; top: number; right: number; bottom: number }

/** The smallest even region of the picture that holds all points, grown by `by` pixels; null when none is left. */
export function regionAround(
  points: readonly (readonly [number, number])[],
  by: number,
  { widthPx, heightPx }: { widthPx: number; heightPx: number },
): Region | null {
  const xs = points.map(p => p[0])
  const ys = points.map(p => p[1])
  const left = Math.max(0, Math.floor((Math.min(...xs) - by) / 2) * 2)
  const top = Math.max(0, Math.floor((Math.min(...ys) - by) / 2) * 2)
  const right = Math.min(widthPx, Math.ceil((Math.max(...xs) + by) / 2) * 2)
  const bottom = Math.min(heightPx, Math.ceil((Math.max(...ys) + by) / 2) * 2)
  return left < right && top < bottom ? { left, top, right, bottom } : null
}

/** Moments spread over everything that a frame whose row 0 is centred on t can see. */
export function momentsOf({ camera }: Scene, t: number): number[] {
  const from = t - camera.exposureSeconds / 2
  const span = camera.exposureSeconds + camera.readoutSeconds
  return Array.from({ length: 9 }, (_, i) => from + (span * i) / 8)
}

export const centreAt = (scene: Scene, t: number): Vec3 => positionAt(flightAt(scene.flights, t), t)

/** All pixels that the ball can reach in a frame. */
export function ballRegion(scene: Scene, t: number): Region | null {
  const corners = momentsOf(scene, t).flatMap(at => {
    const outline = outlineOf(centreAt(scene, at), scene.ball.diameterMetres / 2, scene.camera)
    const [dx, dy] = swayAt(scene, t)
    const reach = Math.max(outline.radialPx, outline.tangentialPx)
    return [-1, 1].map(k => [outline.xPx + dx + k * reach, outline.yPx + dy + k * reach] as const)
  })
  return regionAround(corners, 3 + scene.camera.lensBlurPx, scene.camera)
}
