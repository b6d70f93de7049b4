/** Where something is in one frame. */
export type Place = { frame: number; xPx: number; yPx: number }
/** When two paths come nearest to each other, in frames, and how near. */
export type Meeting = { atFrame: number; apartPx: number }

/** Places that a path's end is drawn on straight from: gravity bends it over so few by far less than a radius. */
const places = 4
/** A contact changes the velocity by at least this share of the faster one's; less is one flight that was lost on the way. */
const leastTurn = 0.3

/**
 * The meeting of two paths in the picture, the first drawn on straight from its end, the second back from its
 * start, each by least squares through four places. Null where the velocity does not change, or a path has less than
 * two places. Places in order of time.
 */
export function meetingOf(before: readonly Place[], after: readonly Place[]): Meeting | null {
  const [a, b] = [lineThrough(before.slice(-places)), lineThrough(after.slice(0, places))]
  if (!a || !b) return null
  const [wx, wy] = [b.vx - a.vx, b.vy - a.vy]
  const turn = Math.hypot(wx, wy)
  if (!(turn > leastTurn * Math.max(Math.hypot(a.vx, a.vy), Math.hypot(b.vx, b.vy)))) return null
  const [dx, dy] = [b.x - a.x, b.y - a.y]
  const atFrame = -(dx * wx + dy * wy) / turn ** 2
  return { atFrame, apartPx: Math.hypot(dx + atFrame * wx, dy + atFrame * wy) }
}

/**
 * How far apart two paths are, px, half way between the end of the first and the start of the second, each drawn on
 * straight as above. Null where the velocity changes as at a contact, or a path has less than two places.
 */
export function goesOn(before: readonly Place[], after: readonly Place[]): number | null {
  const [a, b] = [lineThrough(before.slice(-places)), lineThrough(after.slice(0, places))]
  if (!a || !b || meetingOf(before, after)) return null
  const half = (before.at(-1)!.frame + after[0]!.frame) / 2
  return Math.hypot(b.x - a.x + half * (b.vx - a.vx), b.y - a.y + half * (b.vy - a.vy))
}

/** A straight path: its place at frame 0, and px a frame. */
function lineThrough(all: readonly Place[]) {
  const n = all.length
  const mean = (of: (place: Place) => number) => all.reduce((sum, place) => sum + of(place), 0) / n
  const [t, x, y] = [mean(p => p.frame), mean(p => p.xPx), mean(p => p.yPx)]
  const spread = mean(p => (p.frame - t) ** 2)
  if (n < 2 || spread === 0) return null
  const vx = mean(p => (p.frame - t) * (p.xPx - x)) / spread
  const vy = mean(p => (p.frame - t) * (p.yPx - y)) / spread
  return { x: x - vx * t, y: y - vy * t, vx, vy }
}
