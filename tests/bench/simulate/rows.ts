import type { SimulatedHit, TrueSighting } from './hit.ts'
import { bodyAt, centreAt, outlineIn, type Scene, seenAt, timeOfReading } from './scene.ts'
import { add } from './space.ts'

export type Outlines = Map<number, { xPx: number; yPx: number; radiusPx: number }>

export const outlinesOf = (hit: SimulatedHit, scene: Scene): Outlines =>
  new Map(hit.sightings.map(s => [s.frame, outlineIn(scene, s.frame)]))

export const rowsPer = (s: TrueSighting): number => (s.kind === 'point' ? 2 : 1)

/**
 * What would be measured without any error, px at the hit's nominal radius: offsets of points from the
 * outline's centre (x, y), for directions arcs along the rim.
 * `lateSeconds` looks that much later than the row is read.
 */
export function rowsOf(hit: SimulatedHit, scene: Scene, outlines: Outlines, lateSeconds = 0): number[] {
  const rows: number[] = []
  for (const s of hit.sightings) {
    const outline = outlines.get(s.frame)!
    const scale = hit.factors.radiusPx / outline.radiusPx
    const [x, y] = offsetOf(scene, s, outline, lateSeconds)
    if (s.kind === 'direction') {
      const [a, b] = offsetOf(scene, s, outline, lateSeconds, 0.01)
      rows.push(hit.factors.radiusPx * Math.atan2(b - y, a - x))
    } else rows.push(scale * x, scale * y)
  }
  return rows
}

/** Rows under one state less rows under another; a bearing that passes from 180° to −180° has moved a little. */
export function differenceOf({ sightings, factors }: SimulatedHit, to: number[], from: number[]): number[] {
  const turn = 2 * Math.PI * factors.radiusPx
  return sightings
    .flatMap(s =>
      new Array<number>(rowsPer(s)).fill(s.kind === 'direction' ? turn : Number.POSITIVE_INFINITY),
    )
    .map((period, i) => {
      const apart = to[i]! - from[i]!
      return period === Number.POSITIVE_INFINITY ? apart : apart - period * Math.round(apart / period)
    })
}

/** Pixel offset of a mark (or, `ahead` radii further, of a place along its run) from the outline's centre. */
export function offsetOf(
  scene: Scene,
  s: TrueSighting,
  outline: { xPx: number; yPx: number },
  lateSeconds: number,
  ahead = 0,
): [number, number] {
  const mark = scene.marks[s.mark]!
  const repeat = (2 * Math.PI * s.likeness) / mark.symmetryOrder
  const at = (t: number) => {
    const onBall = add(centreAt(scene, t), bodyAt(scene, mark.place, t, repeat), scene.ballRadius)
    const run = ahead > 0 ? bodyAt(scene, mark.along!, t) : onBall
    return seenAt(scene, add(onBall, run, ahead * scene.ballRadius))
  }
  const [x, y] = at(timeOfReading(scene, s.frame, t => at(t)[1]) + lateSeconds)
  return [x - outline.xPx, y - outline.yPx]
}
