const across = 4
const down = 3
const reach = 3
/** A part tells where it went when its best place fits so much better than its worst. */
const telling = 3
const fewestParts = 4
const agreeing = 0.6
/** Pictures so much smaller show moves that are too far for the reach. */
const shrink = 4

/** Where a part of the picture went; all in pixels of the small picture, places from its middle. */
type Moved = { x: number; y: number; right: number; low: number; column: number }

/**
 * How far the view moved between two small grey pictures, in their pixels, where it moved farthest: a shift and a
 * scale that most parts agree on. Null where they do not, or hold nothing to go by. What moves in front of the view
 * moves few of its parts, and not those at both sides.
 */
export function viewMove(before: Uint8Array, after: Uint8Array, widthPx: number): number | null {
  const near = agreedMove(partsMoved(before, after, widthPx), widthPx)
  if (near !== null) return near
  const small = Math.floor(widthPx / shrink)
  const far = agreedMove(partsMoved(shrunk(before, widthPx), shrunk(after, widthPx), small), small)
  return far === null ? null : far * shrink
}

function partsMoved(before: Uint8Array, after: Uint8Array, widthPx: number): Moved[] {
  const heightPx = before.length / widthPx
  const [partWidth, partHeight] = [Math.floor(widthPx / across), Math.floor(heightPx / down)]
  if (Math.min(partWidth, partHeight) < 4 * reach) return []
  return Array.from({ length: across * down }, (_, part) => part).flatMap(part => {
    const [column, row] = [part % across, Math.floor(part / across)]
    const place = { left: column * partWidth, top: row * partHeight, partWidth, partHeight }
    const shift = partShift(before, after, widthPx, place)
    if (!shift) return []
    const [x, y] = [place.left + partWidth / 2 - widthPx / 2, place.top + partHeight / 2 - heightPx / 2]
    return [{ x, y, right: shift[0], low: shift[1], column }]
  })
}

/** A scale that moves the picture's sides by less is lost in the parts' own scatter. */
const leastScale = 1

function agreedMove(parts: Moved[], widthPx: number): number | null {
  if (parts.length < fewestParts) return null
  const scale = scaleOf(parts)
  const atSide = (Math.abs(scale) * widthPx) / 2
  const plain = agreedShift(parts, 0)
  if (plain !== null || atSide < leastScale) return plain
  const shift = agreedShift(parts, scale)
  return shift === null ? null : shift + atSide
}

/** The middle of the scales that pairs of parts show, side by side and one over the other (Theil and Sen). */
function scaleOf(parts: readonly Moved[]): number {
  const scales: number[] = []
  parts.forEach((a, i) => {
    for (const b of parts.slice(0, i)) {
      if (a.x !== b.x) scales.push((a.right - b.right) / (a.x - b.x))
      if (a.y !== b.y) scales.push((a.low - b.low) / (a.y - b.y))
    }
  })
  return middle(scales)
}

/** How far the picture's middle went, as most parts say once the scale is taken out of them; null where they do not. */
function agreedShift(parts: readonly Moved[], scale: number): number | null {
  const rest = parts.map(({ x, y, right, low, column }) => ({
    u: right - scale * x,
    v: low - scale * y,
    column,
  }))
  const [u, v] = [middle(rest.map(one => one.u)), middle(rest.map(one => one.v))]
  const alike = rest.filter(one => Math.abs(one.u - u) <= 1 && Math.abs(one.v - v) <= 1)
  const isWide = [0, across - 1].every(side => alike.some(({ column }) => column === side))
  return isWide && alike.length >= agreeing * rest.length ? Math.hypot(u, v) : null
}

const middle = (values: number[]): number => values.toSorted((a, b) => a - b)[values.length >> 1] ?? 0

type Part = { left: number; top: number; partWidth: number; partHeight: number }

/** Where a part went: the shift with the least sum of absolute differences, between pixels by its neighbours. */
function partShift(
  before: Uint8Array,
  after: Uint8Array,
  widthPx: number,
  { left, top, partWidth, partHeight }: Part,
): [right: number, low: number] | null {
  const size = 2 * reach + 1
  const sums = new Float64Array(size * size)
  for (let k = 0; k < sums.length; k++) {
    const [dx, dy] = [(k % size) - reach, Math.floor(k / size) - reach]
    for (let v = reach; v < partHeight - reach; v++) {
      const at = (top + v) * widthPx + left
      const there = (top + v + dy) * widthPx + left + dx
      for (let u = reach; u < partWidth - reach; u++)
        sums[k]! += Math.abs(after[there + u]! - before[at + u]!)
    }
  }
  const best = sums.reduce((least, sum, k) => (sum < sums[least]! ? k : least), 0)
  if (!(Math.max(...sums) > telling * sums[best]!)) return null
  const [column, row] = [best % size, Math.floor(best / size)]
  // Where the best place lies at the end of the reach, the true one may lie beyond.
  if (Math.min(column, row) === 0 || Math.max(column, row) === size - 1) return null
  return [
    column - reach + between(sums[best - 1]!, sums[best]!, sums[best + 1]!),
    row - reach + between(sums[best - size]!, sums[best]!, sums[best + size]!),
  ]
}

/** A sum of absolute differences rises like a V to both sides: where its foot lies, −½ to ½. */
const between = (before: number, here: number, after: number): number => {
  const steepest = Math.max(before, after) - here
  return steepest > 0 ? (before - after) / (2 * steepest) : 0
}

function shrunk(picture: Uint8Array, widthPx: number): Uint8Array {
  const [small, rows] = [Math.floor(widthPx / shrink), Math.floor(picture.length / widthPx / shrink)]
  const out = new Uint8Array(small * rows)
  for (let i = 0; i < out.length; i++) {
    const at = Math.floor(i / small) * shrink * widthPx + (i % small) * shrink
    let sum = 0
    for (let v = 0; v < shrink; v++) for (let u = 0; u < shrink; u++) sum += picture[at + v * widthPx + u]!
    out[i] = sum / shrink ** 2
  }
  return out
}
