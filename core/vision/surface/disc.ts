/**
 * The near half of a ball as a grid seen along the line of sight: node (column, row) is the direction
 * ((column − half)/half, (row − half)/half, −√(1 − x² − y²)) in view axes (x right, y down, z away).
 * Only nodes within `reach` of the middle are used: nearer to the rim a pixel covers too much of the ball.
 */
export type Disc = {
  half: number
  size: number
  /** Grid index of each used node, and its direction. */
  node: Int32Array
  x: Float32Array
  y: Float32Array
  z: Float32Array
}
const reach = 0.9

export function discOf(half: number): Disc {
  const size = 2 * half + 1
  const nodes: number[] = []
  for (let at = 0; at < size * size; at++) {
    if (Math.hypot((at % size) - half, Math.floor(at / size) - half) <= reach * half) nodes.push(at)
  }
  const node = Int32Array.from(nodes)
  const x = Float32Array.from(nodes, at => ((at % size) - half) / half)
  const y = Float32Array.from(nodes, at => (Math.floor(at / size) - half) / half)
  const z = Float32Array.from(nodes, (_, i) => -Math.sqrt(1 - x[i]! ** 2 - y[i]! ** 2))
  return { half, size, node, x, y, z }
}
