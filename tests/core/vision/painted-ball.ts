import type { Outline } from '../../../core/contract/marks.ts'
import { rotationFromVector, turnedBack } from '../../../core/geometry/rotation.ts'
import { dot, scaled, unit, type Vector } from '../../../core/geometry/vector.ts'
import type { Luma } from '../../../core/vision/luma.ts'
import { product } from '../../../core/vision/surface/pair.ts'

/** A repeatable stream of numbers in 0…1 (mulberry32, public domain). */
function randomFrom(seed: number): () => number {
  let state = seed
  return () => {
    state = (state + 0x6d2b79f5) | 0
    let t = Math.imul(state ^ (state >>> 15), 1 | state)
    t = (t + Math.imul(t ^ (t >>> 7), 61 | t)) ^ t
    return ((t ^ (t >>> 14)) >>> 0) / 4294967296
  }
}

/** Dark spots of 7° half width anywhere on a ball. */
export function spotsOf(count: number, seed: number): Vector[] {
  const random = randomFrom(seed)
  return Array.from({ length: count }, () => {
    const z = 2 * random() - 1
    const turn = 2 * Math.PI * random()
    return unit([Math.sqrt(1 - z * z) * Math.cos(turn), Math.sqrt(1 - z * z) * Math.sin(turn), z])
  })
}

/** A small picture by a far camera with a short shutter that reads all rows at once: what finding a ball needs of it. */
export const smallPicture = {
  widthPx: 320,
  heightPx: 140,
  readoutSeconds: 0,
  fps: 240,
  exposureSeconds: 0,
  focalLengthPx: 1e6,
}

/** Where the lamp of most scenes stands: above left, on the camera's side. */
const usualLamp: Vector = [-1, -2, -2]

type Painted = {
  widthPx: number
  heightPx: number
  outline: Outline
  turned: Vector
  spots: Vector[]
  seed: number
  /** Towards the lamp. */
  lamp?: Vector
  /** What the ball turns and flies (px) by while the shutter is open, half of it before the middle. */
  smear?: { turn: Vector; xPx: number }
}

/** Codes of limited range, 16 to 235 (ITU-R BT.709), gamma 2.2. */
const lightOf = (code: number) => (Math.max(code - 16, 0) / 219) ** 2.2
const codeOf = (light: number) => 16 + 219 * light ** (1 / 2.2)

/**
 * A far ball (parallel view) before a wall with stripes, lit from above left, with noise: each pixel is the mean
 * light of nine looks, one after the other while the shutter is open, coded by a power law as cameras do. Written
 * for the tests alone.
 */
export function painted({ widthPx, heightPx, outline, turned, spots, seed, ...more }: Painted): Luma {
  const random = randomFrom(seed)
  const { turn, xPx: wayPx } = more.smear ?? { turn: [0, 0, 0] as Vector, xPx: 0 }
  // Not in the order of the looks' places: a pixel's left and right sides are exposed alike.
  const moments = [0, 5, 7, 4, 8, 1, 6, 2, 3].map(k => (k + 0.5) / 9 - 0.5)
  const poses = moments.map(at => product(rotationFromVector(scaled(turn, at)), rotationFromVector(turned)))
  const data = new Uint8Array(widthPx * heightPx)
  const lamp = unit(more.lamp ?? usualLamp)
  for (let at = 0; at < data.length; at++) {
    let sum = 0
    for (let look = 0; look < 9; look++) {
      const x = (at % widthPx) + ((look % 3) + 0.5) / 3
      const y = Math.floor(at / widthPx) + (Math.floor(look / 3) + 0.5) / 3
      const u = (x - outline.xPx - wayPx * moments[look]!) / outline.radiusPx
      const v = (y - outline.yPx) / outline.radiusPx
      const inside = 1 - u * u - v * v
      if (inside < 0) sum += lightOf(60 + 15 * Math.sin(x / 9) + 10 * Math.sin(y / 7))
      else {
        const place: Vector = [u, v, -Math.sqrt(inside)]
        const own = turnedBack(poses[look]!, place)
        const shade = 0.55 + 0.45 * Math.max(0, dot(place, lamp))
        sum += lightOf(shade * (spots.some(spot => dot(spot, own) > Math.cos(0.12)) ? 70 : 220))
      }
    }
    data[at] = Math.max(0, Math.min(255, codeOf(sum / 9) + 6 * (random() - 0.5)))
  }
  return { xPx: 0, yPx: 0, widthPx, heightPx, data }
}

type Scene = {
  exposureSeconds?: number
  /** Towards the lamp when this part of the flight, 0 to 1, is over. */
  lampAt?: (part: number) => Vector
}

/** Frames of a flight from left to right with a given spin; `fps` frames a second. */
export function flightOf(
  rotation: Vector,
  frames: number,
  fps: number,
  spots: Vector[],
  radiusPx = 24,
  { exposureSeconds = 0, lampAt = () => usualLamp }: Scene = {},
) {
  const [widthPx, heightPx] = [320, 140]
  return Array.from({ length: frames }, (_, i) => {
    const outline = { xPx: 40 + (240 * i) / (frames - 1), yPx: 55 + 0.08 * (i - frames / 2) ** 2, radiusPx }
    const luma = painted({
      widthPx,
      heightPx,
      outline,
      turned: scaled(rotation, i / fps),
      spots,
      seed: i + 1,
      lamp: lampAt(i / (frames - 1)),
      smear: {
        turn: scaled(rotation, exposureSeconds),
        xPx: (240 / (frames - 1)) * fps * exposureSeconds,
      },
    })
    return { index: i, timeSeconds: i / fps, outline, luma }
  })
}
