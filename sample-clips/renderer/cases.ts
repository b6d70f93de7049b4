import type { ClickPlan } from './clicks.ts'
import { BALL_METRES, flightThrough, h264, leaning, poseWithMark, rateOf } from './compose.ts'
import { contactCase } from './contact-case.ts'
import type { Camera, Encoding } from './scene.ts'
import { bench, type Case, evening, phone, printsOf, type Setting } from './settings.ts'
import { scale, type Vec3 } from './vector.ts'

type Shot = {
  name: string
  setting: Setting
  seed: number
  frames: number
  rpm: number
  /** Where the spin axis leans: 0 away from the camera (clockwise), 180 towards it (counter-clockwise). */
  tiltDeg: number
  towardsDeg: number
  radiusPx: number
  atPx: readonly [number, number]
  velocity: Vec3
  markFromAxisDeg: number
  camera?: Partial<Camera>
  encoding?: Partial<Encoding>
  clicks?: Partial<ClickPlan>
}

function shot(s: Shot): Case {
  const { setting } = s
  const camera: Camera = { ...setting.camera, ...s.camera }
  const rotation = scale(leaning(s.tiltDeg, s.towardsDeg), rateOf(s.rpm))
  const captured = s.frames + camera.dropped.length
  const atSeconds = (captured - 1) / 2 / camera.fps
  const prints = printsOf(setting.ball.layout, setting.logo)
  return {
    scene: {
      name: s.name,
      seed: s.seed,
      captured,
      camera,
      ball: {
        ...setting.ball,
        diameterMetres: BALL_METRES,
        wallMetres: 0.0014,
        prints,
        startPose: poseWithMark(prints[0], rotation, s.markFromAxisDeg, s.seed * 37),
      },
      flights: [
        flightThrough(camera, { atSeconds, atPx: s.atPx, radiusPx: s.radiusPx }, s.velocity, rotation),
      ],
      paddle: null,
      lamp: setting.lamp,
      backdrop: setting.backdrop,
      room: setting.room,
      flicker: null,
      encoding: { ...h264(camera.fps), ...s.encoding },
    },
    clicks: {
      flight: 0,
      marks: ['logo', 'dot'],
      frames: 18,
      seed: s.seed,
      knows: setting.knows,
      ...s.clicks,
    },
  }
}

const topspin: Shot = {
  name: 'topspin-240-a',
  setting: bench,
  seed: 1,
  frames: 40,
  rpm: 1652,
  tiltDeg: 8,
  towardsDeg: 250,
  radiusPx: 40,
  atPx: [480, 190],
  velocity: [5.2, -0.35, 0.25],
  markFromAxisDeg: 40,
}

const shots: Shot[] = [
  topspin,
  {
    ...topspin,
    name: 'topspin-240-b',
    seed: 2,
    rpm: 1618,
    tiltDeg: 11,
    towardsDeg: 80,
    radiusPx: 43,
    velocity: [5.6, -0.2, -0.3],
    markFromAxisDeg: 46,
  },
  {
    ...topspin,
    name: 'topspin-240-c',
    seed: 3,
    rpm: 1694,
    tiltDeg: 5,
    towardsDeg: 160,
    velocity: [5.0, -0.5, 0.1],
    markFromAxisDeg: 36,
    encoding: { codec: 'hevc', crf: 14 },
  },
  {
    ...topspin,
    name: 'fast-240-a',
    seed: 4,
    rpm: 2296,
    towardsDeg: 310,
    radiusPx: 44,
    velocity: [5.8, -0.6, 0.2],
    atPx: [480, 205],
  },
  {
    ...topspin,
    name: 'fast-240-b',
    seed: 5,
    rpm: 2317,
    tiltDeg: 6,
    towardsDeg: 20,
    radiusPx: 41,
    velocity: [5.5, -0.1, 0.3],
    markFromAxisDeg: 50,
  },
  {
    ...topspin,
    name: 'tilted-240',
    seed: 6,
    rpm: 1905,
    tiltDeg: 38,
    towardsDeg: 285,
    radiusPx: 46,
    velocity: [5.3, -0.4, -0.4],
    markFromAxisDeg: 64,
  },
  {
    ...topspin,
    name: 'dropped-240',
    seed: 7,
    rpm: 1784,
    frames: 36,
    towardsDeg: 120,
    camera: { dropped: [15, 16, 25] },
    clicks: { frames: 20 },
  },
  {
    ...topspin,
    name: 'smear-240',
    setting: evening,
    seed: 8,
    rpm: 2050,
    tiltDeg: 10,
    towardsDeg: 200,
    radiusPx: 45,
    velocity: [4.8, -0.3, 0.2],
  },
  {
    name: 'backspin-120',
    setting: phone,
    seed: 9,
    frames: 32,
    rpm: 1420,
    tiltDeg: 171,
    towardsDeg: 60,
    radiusPx: 38,
    atPx: [480, 200],
    velocity: [4.1, -0.5, 0.2],
    markFromAxisDeg: 44,
    camera: { fps: 120 },
  },
  {
    name: 'aliased-60',
    setting: phone,
    seed: 10,
    frames: 28,
    rpm: 2330,
    tiltDeg: 7,
    towardsDeg: 330,
    radiusPx: 36,
    atPx: [480, 110],
    velocity: [2.2, -0.05, 0.05],
    markFromAxisDeg: 42,
    camera: { fps: 60 },
    clicks: { plausible: { maxRpm: 3000 } },
  },
  {
    ...topspin,
    name: 'slowmo-30',
    setting: phone,
    seed: 11,
    rpm: 1833,
    towardsDeg: 40,
    radiusPx: 37,
    velocity: [5.4, -0.3, 0.3],
    encoding: h264(30),
  },
  {
    name: 'rolling-240',
    setting: phone,
    seed: 12,
    frames: 30,
    rpm: 1730,
    tiltDeg: 9,
    towardsDeg: 100,
    radiusPx: 35,
    atPx: [470, 270],
    velocity: [1.3, 5.1, 0.1],
    markFromAxisDeg: 47,
  },
  {
    ...topspin,
    name: 'phone-240',
    setting: phone,
    seed: 13,
    rpm: 1561,
    tiltDeg: 12,
    towardsDeg: 350,
    radiusPx: 39,
    velocity: [5.1, -0.4, 0.2],
    encoding: { container: 'mov', timescale: 600, bFrames: 0 },
  },
]

export const cases: Case[] = [...shots.map(shot), contactCase()]
