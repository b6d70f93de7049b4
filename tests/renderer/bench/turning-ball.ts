import type { FramePicture } from '../../../core/contract/calls.ts'
import type { Outline } from '../../../core/contract/marks.ts'

/** A drawn ball in flight that turns about the line of sight: its truth is known in every frame. */
export type TurningBall = {
  widthPx: number
  heightPx: number
  fps: number
  /** Clockwise on the screen is positive. */
  rpm: number
  radiusPx: number
  frames: number
}

export const turningBall: TurningBall = {
  widthPx: 960,
  heightPx: 540,
  fps: 240,
  rpm: 2331,
  radiusPx: 37,
  frames: 60,
}

/** Share of the radius at which the middle of the logo sits. */
const reach = 0.62
const startRad = 0.7

export function outlineIn({ widthPx, heightPx, radiusPx, frames }: TurningBall, frame: number): Outline {
  const along = frame / (frames - 1)
  const bend = 0.35 * (along - 0.5) ** 2
  return { xPx: widthPx * (0.1 + 0.8 * along), yPx: heightPx * (0.42 + bend), radiusPx }
}

const logoBearingRad = ({ rpm, fps }: TurningBall, frame: number): number =>
  startRad + ((rpm * 2 * Math.PI) / 60) * (frame / fps)

export function logoIn(ball: TurningBall, frame: number): { xPx: number; yPx: number } {
  const { xPx, yPx, radiusPx } = outlineIn(ball, frame)
  const rad = logoBearingRad(ball, frame)
  return { xPx: xPx + reach * radiusPx * Math.cos(rad), yPx: yPx + reach * radiusPx * Math.sin(rad) }
}

/** The frame as I420. The logo is a dark bar with a dot at its outer end; three rings of holes turn with it. */
export function pictureOf(ball: TurningBall, frame: number): FramePicture {
  const { widthPx, heightPx, radiusPx } = ball
  const data = new Uint8Array((widthPx * heightPx * 3) / 2)
  const chroma = (widthPx * heightPx) / 4
  data.fill(128, widthPx * heightPx)
  for (let y = 0; y < heightPx; y++) {
    const floor = y > heightPx * 0.84 ? -22 : 0
    for (let x = 0; x < widthPx; x++) {
      const grain = ((x * 7919 + y * 104729 + frame * 1299709) % 17) / 3
      data[y * widthPx + x] = 74 + floor + (x / widthPx) * 24 + grain
    }
  }
  const { xPx, yPx } = outlineIn(ball, frame)
  const turned = logoBearingRad(ball, frame)
  const paint = (x: number, y: number) => {
    const dx = (x + 0.5 - xPx) / radiusPx
    const dy = (y + 0.5 - yPx) / radiusPx
    const r = Math.hypot(dx, dy)
    if (r >= 1) return
    const u = dx * Math.cos(turned) + dy * Math.sin(turned)
    const v = -dx * Math.sin(turned) + dy * Math.cos(turned)
    const depth = Math.sqrt(1 - r * r)
    const at = y * widthPx + x
    const half = (y >> 1) * (widthPx / 2) + (x >> 1)
    const isLogo = (Math.abs(u - 0.5) < 0.2 && Math.abs(v) < 0.09) || Math.hypot(u - reach, v) < 0.13
    const hole = holes.some(([hx, hy]) => Math.hypot(u - hx, v - hy) < 0.105)
    data[at] = isLogo ? 38 : hole ? 62 : 70 + 130 * depth * (0.8 - 0.2 * dy)
    data[widthPx * heightPx + half] = isLogo || hole ? 128 : 84
    data[widthPx * heightPx + chroma + half] = isLogo || hole ? 128 : 134
  }
  for (let y = Math.floor(yPx - radiusPx); y <= yPx + radiusPx; y++)
    for (let x = Math.floor(xPx - radiusPx); x <= xPx + radiusPx; x++) paint(x, y)
  return { widthPx, heightPx, data }
}

const holes = [1.1, 2.1, 3.2, 4.2, 5.2].flatMap(angle =>
  [0.42, 0.78].map(out => [out * Math.cos(angle + out), out * Math.sin(angle + out)] as const),
)
