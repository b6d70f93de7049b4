import { cross, scaled, tangents, unit, type Vector } from '../../../../core/geometry/vector.ts'

const steps = 48
/** How far the axis stands out of the ball, in radii. */
const out = 1.3

/**
 * The spin axis and the equator about it as SVG paths around (0, 0), split into what faces the camera and
 * what lies behind, and the place and heading of an arrow on the equator's near side that says which way
 * the ball turns. Camera axes: x right, y down, z away.
 */
export function drawnAxis(axis: { x: number; y: number; z: number }, radius: number) {
  const a = unit([axis.x, axis.y, axis.z])
  const [e, f] = tangents(a)
  const onEquator = (turn: number): Vector => {
    const c = Math.cos(turn)
    const s = Math.sin(turn)
    return [c * e[0] + s * f[0], c * e[1] + s * f[1], c * e[2] + s * f[2]]
  }
  const at = ([x, y]: Vector) => `${(x * radius).toFixed(2)} ${(y * radius).toFixed(2)}`
  let front = ''
  let behind = ''
  for (let i = 0; i < steps; i++) {
    const from = onEquator((2 * Math.PI * i) / steps)
    const to = onEquator((2 * Math.PI * (i + 1)) / steps)
    if (from[2] + to[2] <= 0) front += `M${at(from)}L${at(to)}`
    else behind += `M${at(from)}L${at(to)}`
  }
  /** One end of the axis: from the surface outward where it faces the camera, else hidden up to the rim. */
  const end = (pole: Vector) => `M${at(pole)}L${at(scaled(pole, out))}`
  const through = `M${at(a)}L${at(scaled(a, -1))}`
  const back = scaled(a, -1)
  const facing = a[2] <= 0 ? a : back
  const away = a[2] <= 0 ? back : a
  return {
    axisFront: end(facing),
    axisBehind: through + end(away),
    equatorFront: front,
    equatorBehind: behind,
    way: wayOf(a, radius),
  }
}

/** Where the equator comes nearest to the camera, and the heading of the surface there, as an SVG transform. */
function wayOf(a: Vector, radius: number): string {
  const [x, y, z] = a
  const facesCamera = Math.hypot(x, y) < 1e-3
  const near: Vector = facesCamera ? [1, 0, 0] : unit([x * z, y * z, z * z - 1])
  const heading = cross(a, near)
  const deg = (Math.atan2(heading[1], heading[0]) * 180) / Math.PI
  return `translate(${(near[0] * radius).toFixed(2)} ${(near[1] * radius).toFixed(2)}) rotate(${deg.toFixed(1)})`
}
