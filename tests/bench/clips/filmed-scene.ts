import { chanceOf } from '../simulate/random.ts'

/** What a camera on a stand films: a wall with texture, and a ball with dots that crosses it and turns. */
export type FilmedScene = {
  widthPx: number
  heightPx: number
  fps: number
  frames: number
  seed: number
  /** Part of the picture's height. */
  ballRadius: number
  /** Picture widths a second, and turns a second. */
  speed: number
  turns: number
  /** Grey levels, standard deviation. */
  noise: number
  /** How far the stand trembles, px, standard deviation. */
  shakePx: number
  /** 1 for a lit court; smaller for a dim one. */
  light: number
  /** How strong the wall's texture is, grey levels. */
  texture: number
  /** A paddle that swings through a third of the picture. */
  paddle: boolean
}

export const usualScene: FilmedScene = {
  widthPx: 480,
  heightPx: 272,
  fps: 240,
  frames: 48,
  seed: 1,
  ballRadius: 0.1,
  speed: 4,
  turns: 30,
  noise: 2,
  shakePx: 0.2,
  light: 1,
  texture: 30,
  paddle: false,
}

const tableSize = 1 << 16

/** The scene's pictures in grey, one frame after the other. */
export function* picturesOf(scene: FilmedScene): Generator<Uint8Array> {
  const { widthPx, heightPx, frames, fps } = scene
  const chance = chanceOf(scene.seed)
  const noise = Float32Array.from({ length: tableSize }, () => chance.normal(scene.noise))
  const margin = Math.ceil(6 * scene.shakePx) + 2
  const wall = wallOf(scene, margin)
  const wallWidth = widthPx + 2 * margin
  for (let i = 0; i < frames; i++) {
    const [shakeX, shakeY] = [margin + chance.normal(scene.shakePx), margin + chance.normal(scene.shakePx)]
    const picture = new Float32Array(widthPx * heightPx)
    for (let y = 0; y < heightPx; y++)
      for (let x = 0; x < widthPx; x++)
        picture[y * widthPx + x] = between(wall, wallWidth, x + shakeX, y + shakeY)
    const t = i / fps
    if (scene.paddle) drawPaddle(picture, scene, t)
    drawBall(picture, scene, t)
    const start = Math.floor(chance.between(0, tableSize))
    const grey = new Uint8Array(picture.length)
    for (let k = 0; k < grey.length; k++) {
      const value = scene.light * picture[k]! + noise[(start + k) % tableSize]!
      grey[k] = value < 0 ? 0 : value > 255 ? 255 : value + 0.5
    }
    yield grey
  }
}

/** Smooth hills of several sizes over a grey wall, and a net of lines. */
function wallOf({ widthPx, heightPx, texture, seed }: FilmedScene, margin: number): Float32Array {
  const [across, down] = [widthPx + 2 * margin, heightPx + 2 * margin]
  const chance = chanceOf(seed + 1000)
  const waves = Array.from({ length: 24 }, (_, k) => {
    const long = widthPx / 2 ** (k / 4)
    const way = chance.between(0, 2 * Math.PI)
    return { u: Math.cos(way) / long, v: Math.sin(way) / long, phase: chance.between(0, 7) }
  })
  return Float32Array.from({ length: across * down }, (_, i) => {
    const [x, y] = [i % across, Math.floor(i / across)]
    let sum = 0
    for (const { u, v, phase } of waves) sum += Math.sin(6.283 * (u * x + v * y) + phase)
    const isLine = x % Math.round(widthPx / 9) < 2 || y % Math.round(heightPx / 5) < 2
    return 120 + (texture * sum) / 5 - (isLine ? texture : 0)
  })
}

function between(wall: Float32Array, across: number, x: number, y: number): number {
  const at = Math.floor(y) * across + Math.floor(x)
  const right = x - Math.floor(x)
  const low = y - Math.floor(y)
  const top = wall[at]! + right * (wall[at + 1]! - wall[at]!)
  const bottom = wall[at + across]! + right * (wall[at + across + 1]! - wall[at + across]!)
  return top + low * (bottom - top)
}

const dots = Array.from({ length: 14 }, (_, k) => {
  const z = 1 - (2 * (k + 0.5)) / 14
  const around = 2.39996 * k
  return [Math.sqrt(1 - z * z) * Math.cos(around), Math.sqrt(1 - z * z) * Math.sin(around), z] as const
})

function drawBall(picture: Float32Array, scene: FilmedScene, t: number): void {
  const { widthPx, heightPx } = scene
  const radius = scene.ballRadius * heightPx
  const span = widthPx + 2 * radius
  const centreX = ((scene.speed * widthPx * t + 0.2 * widthPx) % span) - radius
  const centreY = heightPx * (0.45 + 0.1 * Math.sin(2 * t))
  const angle = 6.283 * scene.turns * t
  const [cos, sin] = [Math.cos(angle), Math.sin(angle)]
  for (
    let y = Math.max(0, Math.floor(centreY - radius - 1));
    y < Math.min(heightPx, centreY + radius + 1);
    y++
  )
    for (
      let x = Math.max(0, Math.floor(centreX - radius - 1));
      x < Math.min(widthPx, centreX + radius + 1);
      x++
    ) {
      const [u, v] = [(x + 0.5 - centreX) / radius, (y + 0.5 - centreY) / radius]
      const out = Math.hypot(u, v)
      const cover = Math.min(Math.max((1 - out) * radius + 0.5, 0), 1)
      if (cover === 0) continue
      const w = Math.sqrt(Math.max(1 - out * out, 0))
      const [a, b] = [u * cos + v * sin, v * cos - u * sin]
      const isDot = dots.some(([p, q, r]) => a * p + b * q + w * r > 0.97)
      const shade = isDot ? 70 : 150 + 70 * w
      picture[y * widthPx + x]! += cover * (shade - picture[y * widthPx + x]!)
    }
}

function drawPaddle(picture: Float32Array, { widthPx, heightPx }: FilmedScene, t: number): void {
  const left = widthPx * (0.55 + 0.25 * Math.sin(9 * t))
  for (let y = Math.floor(0.2 * heightPx); y < 0.8 * heightPx; y++)
    for (let x = Math.floor(left); x < Math.min(widthPx, left + 0.2 * widthPx); x++)
      picture[y * widthPx + x] = 55 + 25 * Math.sin(0.3 * (x - left)) * Math.sin(0.25 * y)
}
