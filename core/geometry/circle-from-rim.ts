import type { Outline } from '../contract/marks.ts'

type Point = { xPx: number; yPx: number }
export type CircleFromRim = { circle: Outline; reason: null } | { circle: null; reason: string }

/** Flatter than this, height over longest side, the three points say next to nothing about the circle. */
const flattest = 1 / 200

/**
 * The circle through three points of a ball's rim, pixels of the picture (x right, y down).
 * Points that coincide or lie nearly on a line give no circle, and the reason.
 *
 * @example circleFromRim({ xPx: 5, yPx: 0 }, { xPx: 0, yPx: 5 }, { xPx: -5, yPx: 0 }).circle
 * // { xPx: 0, yPx: 0, radiusPx: 5 }
 */
export function circleFromRim(a: Point, b: Point, c: Point): CircleFromRim {
  const bx = b.xPx - a.xPx
  const by = b.yPx - a.yPx
  const cx = c.xPx - a.xPx
  const cy = c.yPx - a.yPx
  const longest = Math.max(Math.hypot(bx, by), Math.hypot(cx, cy), Math.hypot(bx - cx, by - cy))
  const cross = bx * cy - by * cx
  if (!(Math.abs(cross) > flattest * longest ** 2))
    return { circle: null, reason: 'The three points lie on a line; spread them around the rim.' }
  const b2 = bx * bx + by * by
  const c2 = cx * cx + cy * cy
  const x = (cy * b2 - by * c2) / (2 * cross)
  const y = (bx * c2 - cx * b2) / (2 * cross)
  return { circle: { xPx: a.xPx + x, yPx: a.yPx + y, radiusPx: Math.hypot(x, y) }, reason: null }
}
