import { lightOf } from './lamps.ts'
import type { Paddle, Scene } from './scene.ts'
import { add, apply, type Mat3, rotationBy, scale, type Vec3 } from './vector.ts'

export type SlabTracer = {
  /** Of the last hit: linear red, green, blue, and the distance from the camera. */
  met: Float64Array
  /** Does a unit ray from the camera meet the paddle as it stands at time t? */
  trace(dx: number, dy: number, dz: number, t: number): boolean
  /** The paddle's corners at time t. */
  corners(t: number): Vec3[]
}

/** Radius of the head's rounded corners, and the slices through its thickness that stand for its edge. */
const CORNER = 0.045
const SLICES = 6

const transpose = (m: Mat3): Mat3 => [m[0], m[3], m[6], m[1], m[4], m[7], m[2], m[5], m[8]]

/** A paddle as a flat board: two faces with a printed band, a darker edge guard, a grip below. */
export function makeSlabTracer(scene: Scene, paddle: Paddle): SlabTracer {
  const light = lightOf(scene.lamp)
  const met = new Float64Array(4)
  const { thickness, height, width } = paddle.sizeMetres
  const turn = rotationBy(paddle.tiltRad)
  const back = transpose(turn)
  const head: Vec3 = [thickness / 2, height / 2, width / 2]
  const grip: Vec3 = [0.014, 0.07, 0.016]
  const gripDown = height / 2 + grip[1] - 0.005

  const centreAt = (t: number): Vec3 =>
    add(paddle.centreMetres, scale(paddle.velocityMetresPerSecond, t - paddle.atSeconds))
  // A unit ray in the board's own axes: where it starts, at `atSeconds` and how that drifts, and its direction.
  const start = apply(back, scale(paddle.centreMetres, -1))
  const drift = apply(back, scale(paddle.velocityMetresPerSecond, -1))
  const d = new Float64Array(3)
  const o = new Float64Array(3)
  let axis = 0
  let side = 1

  /** Nearest way into the box of half sizes `half` whose middle lies `down` along y; sets axis and side. */
  function enter(half: Vec3, down: number): number {
    let near = -Infinity
    let far = Infinity
    for (let i = 0; i < 3; i++) {
      const from = o[i]! - (i === 1 ? down : 0)
      const h = half[i as 0]
      const a = (-h - from) / d[i]!
      const b = (h - from) / d[i]!
      const first = Math.min(a, b)
      const last = Math.max(a, b)
      if (first > near) {
        near = first
        axis = i
        side = a < b ? -1 : 1
      }
      if (last < far) far = last
    }
    return near < far && near > 0 ? near : 0
  }

  /** Way to the head: its near face, or the edge guard as the first slice behind it; shades what it meets. */
  function meetHead(): number {
    axis = 0
    side = o[0]! > 0 ? 1 : -1
    for (let slice = 0; slice < SLICES; slice++) {
      const s = (side * head[0] * (1 - (2 * slice) / (SLICES - 1)) - o[0]!) / d[0]!
      const y = o[1]! + s * d[1]!
      const z = o[2]! + s * d[2]!
      const cutY = Math.abs(y) - head[1] + CORNER
      const cutZ = Math.abs(z) - head[2] + CORNER
      if (s <= 0 || cutY > CORNER || cutZ > CORNER) continue
      if (cutY > 0 && cutZ > 0 && cutY * cutY + cutZ * cutZ > CORNER * CORNER) continue
      if (slice > 0) shade([0.025, 0.025, 0.03])
      else if (Math.abs(y + 0.3 * z) < 0.012) shade([0.7, 0.32, 0.03])
      else shade([0.07, 0.09, 0.11])
      return s
    }
    return 0
  }

  function shade(base: Vec3): void {
    const normal: Vec3 = [turn[axis as 0] * side, turn[(axis + 3) as 3] * side, turn[(axis + 6) as 6] * side]
    const up = (1 - normal[1]) / 2
    for (let i = 0; i < 3; i++) {
      const c = i as 0 | 1 | 2
      let e = light.ground[c] + (light.sky[c] - light.ground[c]) * up
      for (const { rgb, towards } of light.lamps)
        e += rgb[c] * Math.max(0, normal[0] * towards[0] + normal[1] * towards[1] + normal[2] * towards[2])
      met[i] = e * base[c]
    }
  }

  function trace(dx: number, dy: number, dz: number, t: number): boolean {
    const since = t - paddle.atSeconds
    o[0] = start[0] + drift[0] * since
    o[1] = start[1] + drift[1] * since
    o[2] = start[2] + drift[2] * since
    d[0] = back[0] * dx + back[1] * dy + back[2] * dz
    d[1] = back[3] * dx + back[4] * dy + back[5] * dz
    d[2] = back[6] * dx + back[7] * dy + back[8] * dz
    const onHead = meetHead()
    if (onHead > 0) {
      met[3] = onHead
      return true
    }
    const onGrip = enter(grip, gripDown)
    if (onGrip === 0) return false
    shade([0.16, 0.15, 0.14])
    met[3] = onGrip
    return true
  }

  function corners(t: number): Vec3[] {
    const [cx, cy, cz] = centreAt(t)
    return Array.from({ length: 8 }, (_, i): Vec3 => {
      const y = i & 2 ? gripDown + grip[1] : -head[1]
      const [px, py, pz] = apply(turn, [i & 1 ? 0.02 : -0.02, y, i & 4 ? head[2] : -head[2]])
      return [cx + px, cy + py, cz + pz]
    })
  }
  return { met, trace, corners }
}
