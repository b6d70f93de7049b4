import type { Factors } from './factors.ts'
import type { Chance } from './random.ts'
import { add, inner, norm, type P3, spun, square, times } from './space.ts'

/** What really happens in front of the camera. Metres, seconds, camera axes (x right, y down, z away). */
export type Scene = {
  focalPx: number
  widthPx: number
  heightPx: number
  ballRadius: number
  /** Ball's centre at time 0 and its velocity. */
  start: P3
  velocity: P3
  /** Rotation at time 0, and the share of it that is lost a second. */
  spin: P3
  decay: number
  marks: SceneMark[]
  /** Time of each frame's first row; equal to what an ideal clock in the camera says. */
  frameSeconds: number[]
  readoutSeconds: number
  exposureSeconds: number
  /** A mark shows when it stands this far over the rim, in radii. */
  showsFrom: number
}
/** A dot at `place`; or a printed line at `place` that runs along `along`. m likenesses around the spin axis. */
export type SceneMark = { place: P3; along: P3 | null; symmetryOrder: number }

const widthPx = 1280
const heightPx = 720

export function drawScene(f: Factors, frameSeconds: number[], chance: Chance): Scene {
  const focalPx = widthPx / 2 / Math.tan((f.fieldOfViewDeg * Math.PI) / 360)
  const ballRadius = 0.037
  const distance = (focalPx * ballRadius) / f.radiusPx
  const duration = frameSeconds.at(-1)! - frameSeconds[0]!
  // The ball stays in the picture for the whole hit: fast where the hit is short, slow where it is long.
  const heading = chance.between(0, 2 * Math.PI)
  const room = Math.min(
    (0.8 * widthPx) / Math.abs(Math.cos(heading)),
    (0.8 * heightPx) / Math.abs(Math.sin(heading)),
  )
  const pathPx = Math.min(room, (chance.between(2, 20) * duration * focalPx) / distance)
  const path = (pathPx * distance) / focalPx
  const away = chance.between(-0.1, 0.1) * distance
  const velocity: P3 = [
    (path * Math.cos(heading)) / duration,
    (path * Math.sin(heading)) / duration,
    away / duration,
  ]
  const centre: P3 = [0, 0, distance]
  const middle = (frameSeconds.at(-1)! + frameSeconds[0]!) / 2
  const start = add(centre, velocity, -middle)
  const tilt = (f.tiltDeg * Math.PI) / 180
  const azimuth = chance.between(0, 2 * Math.PI)
  const sense = chance.happens(0.5) ? 1 : -1
  const rate = (f.rpm * 2 * Math.PI) / 60
  const axis: P3 = [
    Math.sin(tilt) * Math.cos(azimuth),
    Math.sin(tilt) * Math.sin(azimuth),
    sense * Math.cos(tilt),
  ]
  return {
    focalPx,
    widthPx,
    heightPx,
    ballRadius,
    start,
    velocity,
    spin: times(axis, rate),
    decay: chance.normal(0.05),
    marks: Array.from({ length: f.marks }, () => drawMark(f, chance)),
    frameSeconds,
    readoutSeconds: f.readout / f.fps,
    exposureSeconds: f.exposure / f.fps,
    showsFrom: chance.between(0.05, 0.25),
  }
}

function drawMark(f: Factors, chance: Chance): SceneMark {
  const z = chance.between(-1, 1)
  const a = chance.between(0, 2 * Math.PI)
  const across = Math.sqrt(1 - z * z)
  const place: P3 = [across * Math.cos(a), across * Math.sin(a), z]
  if (f.markKind === 'point') return { place, along: null, symmetryOrder: f.symmetryOrder }
  const [e1, e2] = square(place)
  const run = chance.between(0, 2 * Math.PI)
  return { place, along: add(times(e1, Math.cos(run)), e2, Math.sin(run)), symmetryOrder: f.symmetryOrder }
}

/** Angle turned since time 0 over the starting rate, seconds: ∫ exp(−decay·t) dt. */
export const turnedSeconds = (scene: Scene, t: number): number =>
  Math.abs(scene.decay) < 1e-9 ? t : -Math.expm1(-scene.decay * t) / scene.decay

export const centreAt = (scene: Scene, t: number): P3 => add(scene.start, scene.velocity, t)

/** A body-fixed vector at a time; `likeness` turns it by whole repeats about the axis. */
export function bodyAt(scene: Scene, v: P3, t: number, repeatRad = 0): P3 {
  const rate = norm(scene.spin)
  return spun(v, times(scene.spin, turnedSeconds(scene, t) + repeatRad / rate))
}

export const seenAt = (scene: Scene, p: P3): [number, number] => [
  scene.widthPx / 2 + (scene.focalPx * p[0]) / p[2],
  scene.heightPx / 2 + (scene.focalPx * p[1]) / p[2],
]

/** The time at which the sensor reads the row in which something is then seen. */
export function timeOfReading(scene: Scene, frame: number, rowAt: (t: number) => number): number {
  const begin = scene.frameSeconds[frame]!
  let t = begin
  for (let k = 0; k < 8; k++) t = begin + (scene.readoutSeconds * rowAt(t)) / scene.heightPx
  return t
}

/** How far a place on the ball stands over the rim, in radii: negative behind it. */
export function heightOver(scene: Scene, u: P3, t: number): number {
  const c = centreAt(scene, t)
  const d = norm(c)
  return -inner(u, c) / d - scene.ballRadius / d
}

/**
 * The circle of best fit to the outline as the sensor saw it: each rim point at the time of its own row.
 * The rim of a sphere is the circle of tangent rays: centre c(1 − R²/d²), radius R√(1 − R²/d²).
 */
export function outlineIn(scene: Scene, frame: number): { xPx: number; yPx: number; radiusPx: number } {
  const points = 24
  let [sx, sy] = [0, 0]
  const rim: [number, number][] = []
  for (let k = 0; k < points; k++) {
    const angle = (2 * Math.PI * k) / points
    const rimPoint = (t: number): P3 => {
      const c = centreAt(scene, t)
      const share = (scene.ballRadius / norm(c)) ** 2
      const [e1, e2] = square(c)
      const out = add(times(e1, Math.cos(angle)), e2, Math.sin(angle))
      return add(times(c, 1 - share), out, scene.ballRadius * Math.sqrt(1 - share))
    }
    const t = timeOfReading(scene, frame, at => seenAt(scene, rimPoint(at))[1])
    const p = seenAt(scene, rimPoint(t))
    rim.push(p)
    sx += p[0] / points
    sy += p[1] / points
  }
  const radiusPx = rim.reduce((sum, p) => sum + Math.hypot(p[0] - sx, p[1] - sy) / points, 0)
  return { xPx: sx, yPx: sy, radiusPx }
}

/** The same scene with one mark elsewhere. */
export const withMark = (scene: Scene, m: number, moved: Partial<SceneMark>): Scene => ({
  ...scene,
  marks: scene.marks.map((mark, i) => (i === m ? { ...mark, ...moved } : mark)),
})
