import { makeBores } from './bores.ts'
import { makeInk } from './ink.ts'
import { lightOf } from './lamps.ts'
import { layoutOf } from './layouts.ts'
import { ballColours, type Scene } from './scene.ts'

/** Numbers of one row in a pose table: the centre, then the rotation row by row. */
export const POSE_NUMBERS = 12

export type ShellTracer = {
  /** Of the last hit: linear red, green, blue, and the distance from the camera. */
  met: Float64Array
  /** Does a unit ray from the camera meet the ball whose pose stands at `offset`? */
  trace(dx: number, dy: number, dz: number, poses: Float64Array, offset: number): boolean
}

/**
 * Follows rays into a hollow shell with drilled holes: a ray meets the skin, or enters a hole and meets
 * the hole's wall, the inside of the shell opposite, or leaves through another hole to what is behind.
 *
 * Skin: lambert, sky and ground light, Blinn's highlight. Inside: lamp light that falls in through holes,
 * and the even glow of an integrating sphere, albedo·E/(1 − albedo·(1 − open)), E being what comes in
 * through the open part and through the plastic.
 */
export function makeShellTracer(scene: Scene): ShellTracer {
  const { ball } = scene
  const light = lightOf(scene.lamp)
  const { holes, holeRadiusMetres } = layoutOf(ball.layout)
  const outer = ball.diameterMetres / 2
  // All lengths below in outer radii.
  const inner = 1 - ball.wallMetres / outer
  const holeRadius = holeRadiusMetres / outer
  const holeRadius2 = holeRadius * holeRadius
  const { axes, boreAt } = makeBores(holes, holeRadius)
  const { albedo, inkAt } = makeInk(ball)
  const skin = ballColours[ball.colour]
  const met = new Float64Array(4)

  const open = (holes.length * holeRadius2) / 4
  const glow = [0, 1, 2].map(i => {
    const c = i as 0 | 1 | 2
    const outside =
      (light.sky[c] + light.ground[c]) / 2 + light.lamps.reduce((sum, l) => sum + l.rgb[c] / 4, 0)
    const through = 0.1 * skin[c]
    return (outside * (open + through)) / (1 - skin[c] * (1 - open))
  })

  /** Distance from a point inside a bore along a ray to the bore's wall. */
  function toWall(hole: number, x: number, y: number, z: number, ex: number, ey: number, ez: number): number {
    const hx = axes[hole]!
    const hy = axes[hole + 1]!
    const hz = axes[hole + 2]!
    const pa = x * hx + y * hy + z * hz
    const ea = ex * hx + ey * hy + ez * hz
    const a = 1 - ea * ea
    if (a < 1e-12) return Infinity
    const b = x * ex + y * ey + z * ez - pa * ea
    const c = x * x + y * y + z * z - pa * pa - holeRadius2
    return (-b + Math.sqrt(Math.max(0, b * b - a * c))) / a
  }

  /** Lamp light on a point inside, let in by a hole in the lamp's direction. Directions in the ball's axes. */
  function lampThroughHole(x: number, y: number, z: number, lx: number, ly: number, lz: number): number {
    const cos = -(x * lx + y * ly + z * lz) / inner
    if (cos <= 0) return 0
    const s = 2 * cos * inner
    const px = x + s * lx
    const py = y + s * ly
    const pz = z + s * lz
    const k = 0.5 / inner + 0.5
    return boreAt(px, py, pz) >= 0 && boreAt(px * k, py * k, pz * k) >= 0 ? cos : 0
  }

  function shadeInside(x: number, y: number, z: number, m: Float64Array, o: number): void {
    let r = glow[0]!
    let g = glow[1]!
    let b = glow[2]!
    for (const lamp of light.lamps) {
      const lx = lamp.towards[0]
      const ly = lamp.towards[1]
      const lz = lamp.towards[2]
      const cos = lampThroughHole(
        x,
        y,
        z,
        m[o + 3]! * lx + m[o + 6]! * ly + m[o + 9]! * lz,
        m[o + 4]! * lx + m[o + 7]! * ly + m[o + 10]! * lz,
        m[o + 5]! * lx + m[o + 8]! * ly + m[o + 11]! * lz,
      )
      r += cos * lamp.rgb[0]
      g += cos * lamp.rgb[1]
      b += cos * lamp.rgb[2]
    }
    met[0] = r * skin[0]
    met[1] = g * skin[1]
    met[2] = b * skin[2]
  }

  /** Light on a matt patch whose normal in camera axes is (nx, ny, nz). */
  function shadeMatt(
    nx: number,
    ny: number,
    nz: number,
    r0: number,
    g0: number,
    b0: number,
    share: number,
  ): void {
    const up = (1 - ny) / 2
    let r = light.ground[0] + (light.sky[0] - light.ground[0]) * up
    let g = light.ground[1] + (light.sky[1] - light.ground[1]) * up
    let b = light.ground[2] + (light.sky[2] - light.ground[2]) * up
    for (const lamp of light.lamps) {
      const cos = nx * lamp.towards[0] + ny * lamp.towards[1] + nz * lamp.towards[2]
      if (cos <= 0) continue
      r += cos * lamp.rgb[0]
      g += cos * lamp.rgb[1]
      b += cos * lamp.rgb[2]
    }
    met[0] = r * r0 * share
    met[1] = g * g0 * share
    met[2] = b * b0 * share
  }

  function addHighlight(nx: number, ny: number, nz: number, dx: number, dy: number, dz: number): void {
    for (const lamp of light.lamps) {
      const hx = lamp.towards[0] - dx
      const hy = lamp.towards[1] - dy
      const hz = lamp.towards[2] - dz
      const cos = (nx * hx + ny * hy + nz * hz) / Math.sqrt(hx * hx + hy * hy + hz * hz)
      if (cos < 0.7) continue
      const c4 = cos * cos * cos * cos
      const c16 = c4 * c4 * c4 * c4
      const shine = 0.22 * c16 * c16
      met[0]! += shine * lamp.rgb[0]
      met[1]! += shine * lamp.rgb[1]
      met[2]! += shine * lamp.rgb[2]
    }
  }

  /** A hole's wall: turned towards the axis, in half the light of the open. */
  function shadeWall(hole: number, x: number, y: number, z: number, m: Float64Array, o: number): void {
    const along = x * axes[hole]! + y * axes[hole + 1]! + z * axes[hole + 2]!
    const wx = (axes[hole]! * along - x) / holeRadius
    const wy = (axes[hole + 1]! * along - y) / holeRadius
    const wz = (axes[hole + 2]! * along - z) / holeRadius
    shadeMatt(
      m[o + 3]! * wx + m[o + 4]! * wy + m[o + 5]! * wz,
      m[o + 6]! * wx + m[o + 7]! * wy + m[o + 8]! * wz,
      m[o + 9]! * wx + m[o + 10]! * wy + m[o + 11]! * wz,
      skin[0],
      skin[1],
      skin[2],
      0.5,
    )
  }

  function trace(dx: number, dy: number, dz: number, m: Float64Array, o: number): boolean {
    const cx = m[o]!
    const cy = m[o + 1]!
    const cz = m[o + 2]!
    const b = dx * cx + dy * cy + dz * cz
    const disc = b * b - (cx * cx + cy * cy + cz * cz - outer * outer)
    if (disc <= 0) return false
    const s = b - Math.sqrt(disc)
    const nx = (s * dx - cx) / outer
    const ny = (s * dy - cy) / outer
    const nz = (s * dz - cz) / outer
    let x = m[o + 3]! * nx + m[o + 6]! * ny + m[o + 9]! * nz
    let y = m[o + 4]! * nx + m[o + 7]! * ny + m[o + 10]! * nz
    let z = m[o + 5]! * nx + m[o + 8]! * ny + m[o + 11]! * nz
    const entry = boreAt(x, y, z)
    if (entry < 0) {
      inkAt(x, y, z)
      shadeMatt(nx, ny, nz, albedo[0]!, albedo[1]!, albedo[2]!, 1)
      addHighlight(nx, ny, nz, dx, dy, dz)
      met[3] = s
      return true
    }
    const ex = m[o + 3]! * dx + m[o + 6]! * dy + m[o + 9]! * dz
    const ey = m[o + 4]! * dx + m[o + 7]! * dy + m[o + 10]! * dz
    const ez = m[o + 5]! * dx + m[o + 8]! * dy + m[o + 11]! * dz
    const p = x * ex + y * ey + z * ez
    const toInside = p * p - (1 - inner * inner)
    const enters = toInside > 0 ? -p - Math.sqrt(toInside) : Infinity
    const wall = toWall(entry, x, y, z, ex, ey, ez)
    if (wall < enters) {
      shadeWall(entry, x + wall * ex, y + wall * ey, z + wall * ez, m, o)
      met[3] = s + wall * outer
      return true
    }
    const far = -p + Math.sqrt(toInside)
    x += far * ex
    y += far * ey
    z += far * ez
    const exit = boreAt(x, y, z)
    if (exit < 0) {
      shadeInside(x, y, z, m, o)
      met[3] = s + far * outer
      return true
    }
    const leaves = -p + Math.sqrt(p * p) - far
    const exitWall = toWall(exit, x, y, z, ex, ey, ez)
    if (exitWall < leaves) {
      shadeWall(exit, x + exitWall * ex, y + exitWall * ey, z + exitWall * ez, m, o)
      met[3] = s + (far + exitWall) * outer
      return true
    }
    return false
  }

  return { met, trace }
}
