import { join } from 'node:path'
import {
  BALL_METRES,
  flightThrough,
  h264,
  leaning,
  poseWithMark,
  rateOf,
} from '../../../sample-clips/renderer/compose.ts'
import { encode } from '../../../sample-clips/renderer/encode.ts'
import { renderFrames } from '../../../sample-clips/renderer/frames.ts'
import type { Camera, Paddle, Scene } from '../../../sample-clips/renderer/scene.ts'
import { bench, printsOf } from '../../../sample-clips/renderer/settings.ts'
import { scale, type Vec3 } from '../../../sample-clips/renderer/vector.ts'

export type Frame = Uint8Array<ArrayBuffer>
type Frames = Iterable<Frame>

export const trueRpm = 1650
const rotation = scale(leaning(10, 250), rateOf(trueRpm))
export const camera: Camera = {
  ...bench.camera,
  widthPx: 480,
  heightPx: 272,
  focalLengthPx: 650,
  exposureSeconds: 1 / 2000,
}
const frames = 36
const radiusPx = 24

/** A ball that crosses a small picture from left to right in 36 frames at 240 fps, 1650 rpm. */
export function crossing(changes: Partial<Scene> = {}, velocity: Vec3 = [4.6, -0.6, 0.1]): Scene {
  const filmed = changes.camera ?? camera
  const prints = printsOf(bench.ball.layout, bench.logo)
  const middle = { atSeconds: (frames - 1) / 2 / filmed.fps, atPx: [240, 110] as const, radiusPx }
  return {
    name: 'crossing',
    seed: 91,
    captured: frames,
    camera: filmed,
    ball: {
      ...bench.ball,
      diameterMetres: BALL_METRES,
      wallMetres: 0.0014,
      prints,
      startPose: poseWithMark(prints[0], rotation, 42, 20),
    },
    flights: [flightThrough(filmed, middle, velocity, rotation)],
    paddle: null,
    lamp: bench.lamp,
    backdrop: bench.backdrop,
    room: { scale: 0.8, floorYMetres: 0.24 },
    flicker: null,
    encoding: h264(filmed.fps),
    ...changes,
  }
}

/** The ball is let go far beside the camera's view. */
export const empty = (): Scene => {
  const scene = crossing()
  const [flight] = scene.flights
  return {
    ...scene,
    flights: [{ ...flight!, positionMetres: [-50, 0, 5], velocityMetresPerSecond: [0, 0, 0] }],
  }
}

/** It turns where it lies: so much drag leaves no way to go. */
export const atRest = (): Scene => {
  const scene = crossing()
  return {
    ...scene,
    flights: [
      { ...scene.flights[0]!, fromSeconds: 0, velocityMetresPerSecond: [0, 0, 0], dragPerSecond: 1e9 },
    ],
  }
}

/** A paddle held before the camera's view of most of the flight. */
export function covered(): Scene {
  const scene = crossing()
  const depth = scene.flights[0]!.positionMetres[2]
  const paddle: Paddle = {
    atSeconds: 0,
    centreMetres: [0.02, 0, 0.75 * depth],
    velocityMetresPerSecond: [0.05, 0, 0],
    tiltRad: [0, Math.PI / 2, 0],
    sizeMetres: { thickness: 0.014, height: 0.4, width: 0.36 },
  }
  return { ...scene, paddle }
}

export const yuvOf = (scene: Scene): Frame[] => [...renderFrames(scene)]

/** Planes of a yuv420p frame as [offset, width, height]. */
const planes = (widthPx: number, heightPx: number): [at: number, w: number, h: number][] => {
  const [w, h] = [widthPx / 2, heightPx / 2]
  return [
    [0, widthPx, heightPx],
    [widthPx * heightPx, w, h],
    [widthPx * heightPx + w * h, w, h],
  ]
}

/** One picture above the other. */
export const stacked = (above: Frames, below: Frames): Frame[] => {
  const others = [...below]
  return [...above].map((upper, i) => {
    const lower = others[i]!
    const cut = (frame: Frame, [at, w, h]: [number, number, number]) => frame.subarray(at, at + w * h)
    const all = planes(camera.widthPx, camera.heightPx).flatMap(plane => [
      cut(upper, plane),
      cut(lower, plane),
    ])
    return Uint8Array.from(all.flatMap(part => [...part]))
  })
}

/** As a camera that stands (x, y) px elsewhere sees it, even numbers; edges go on. */
export function pushed(frame: Frame, x: number, y: number): Frame {
  const out = new Uint8Array(frame.length)
  for (const [p, [at, w, h]] of planes(camera.widthPx, camera.heightPx).entries()) {
    const [dx, dy] = p === 0 ? [x, y] : [x / 2, y / 2]
    for (let row = 0; row < h; row++)
      for (let column = 0; column < w; column++) {
        const from = Math.min(Math.max(row - dy, 0), h - 1) * w + Math.min(Math.max(column - dx, 0), w - 1)
        out[at + row * w + column] = frame[at + from]!
      }
  }
  return out
}

export async function written(folder: string, scene: Scene, pictures: Frames): Promise<string> {
  const path = join(folder, `${scene.name}.mp4`)
  await encode(scene, pictures, path)
  return path
}
