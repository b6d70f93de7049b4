import { rasterise } from './logos.ts'
import { type Ball, ballColours, inkColours } from './scene.ts'
import { cross, dot, scale, subtract, unit, type Vec3 } from './vector.ts'

const STAMP = 128

type Stamp = {
  at: Vec3
  right: Vec3
  down: Vec3
  reach: number
  cosReach: number
  density: Float32Array
  ink: Vec3
}

/** Logos and dots as ink density over arc lengths to the right and down from their middle. */
const stampsOf = (ball: Ball): Stamp[] =>
  ball.prints.flatMap(print => {
    if (print.kind === 'line') return []
    const at = unit(print.at)
    const up = unit(subtract(print.up, scale(at, dot(print.up, at))))
    const reach = print.widthMetres / ball.diameterMetres
    return [
      {
        at,
        right: cross(up, at),
        down: scale(up, -1),
        reach,
        cosReach: Math.cos(Math.min(Math.PI, reach * Math.SQRT2)),
        density: rasterise(print.kind === 'dot' ? 'dot' : print.logo, STAMP),
        ink: inkColours[print.ink],
      },
    ]
  })

const linesOf = (ball: Ball) =>
  ball.prints.flatMap(print =>
    print.kind === 'line'
      ? [
          {
            across: unit(print.at),
            halfWidth: print.widthMetres / ball.diameterMetres,
            ink: inkColours[print.ink],
          },
        ]
      : [],
  )

/** The colour of a ball's skin with what is printed on it. */
export function makeInk(ball: Ball) {
  const stamps = stampsOf(ball)
  const lines = linesOf(ball)
  const skin = ballColours[ball.colour]
  const albedo = new Float64Array(3)

  /** Sets `albedo` to the linear RGB albedo at a direction of the ball. */
  function inkAt(x: number, y: number, z: number): void {
    // The weld between the two halves is a faint groove.
    const groove = Math.abs(z) < 0.008 ? 0.86 : 1
    albedo[0] = skin[0] * groove
    albedo[1] = skin[1] * groove
    albedo[2] = skin[2] * groove
    for (const line of lines) {
      const off = x * line.across[0] + y * line.across[1] + z * line.across[2]
      if (Math.abs(off) < line.halfWidth) albedo.set(line.ink)
    }
    for (const { at, right, down, reach, cosReach, density, ink } of stamps) {
      const cos = x * at[0] + y * at[1] + z * at[2]
      if (cos < cosReach) continue
      const sin = Math.sqrt(Math.max(1e-18, 1 - cos * cos))
      const k = (Math.acos(Math.min(1, cos)) / sin / reach) * (STAMP / 2)
      const column = ((x * right[0] + y * right[1] + z * right[2]) * k + STAMP / 2) | 0
      const row = ((x * down[0] + y * down[1] + z * down[2]) * k + STAMP / 2) | 0
      if (column < 0 || row < 0 || column >= STAMP || row >= STAMP) continue
      const d = density[row * STAMP + column]!
      albedo[0]! += (ink[0] - albedo[0]!) * d
      albedo[1]! += (ink[1] - albedo[1]!) * d
      albedo[2]! += (ink[2] - albedo[2]!) * d
    }
  }

  return { albedo, inkAt }
}
