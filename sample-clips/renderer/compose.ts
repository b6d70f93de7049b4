import type { Camera, Encoding, Flight, Print } from './scene.ts'
import {
  across,
  add,
  apply,
  cross,
  length,
  type Mat3,
  rotationBy,
  rotationOnto,
  scale,
  unit,
  type Vec3,
} from './vector.ts'

export const rateOf = (rpm: number) => (rpm * 2 * Math.PI) / 60
export const BALL_METRES = 0.074

/** The unit vector that leans `tiltDeg` from away-from-the-camera, towards bearing `towardsDeg` (clockwise from right). */
export function leaning(tiltDeg: number, towardsDeg: number): Vec3 {
  const [tilt, towards] = [(tiltDeg * Math.PI) / 180, (towardsDeg * Math.PI) / 180]
  return [Math.sin(tilt) * Math.cos(towards), Math.sin(tilt) * Math.sin(towards), Math.cos(tilt)]
}

/** A flight that shows the ball at picture point `atPx` with radius `radiusPx` at `atSeconds`, at that velocity. */
export function flightThrough(
  camera: Camera,
  pass: { atSeconds: number; atPx: readonly [number, number]; radiusPx: number },
  velocityMetresPerSecond: Vec3,
  rotationRadPerSecond: Vec3,
): Flight {
  const depth = (camera.focalLengthPx * BALL_METRES) / 2 / pass.radiusPx
  return {
    fromSeconds: pass.atSeconds,
    positionMetres: [
      ((pass.atPx[0] - camera.widthPx / 2) * depth) / camera.focalLengthPx,
      ((pass.atPx[1] - camera.heightPx / 2) * depth) / camera.focalLengthPx,
      depth,
    ],
    velocityMetresPerSecond,
    dragPerSecond: 0,
    rotationRadPerSecond,
    spinDecayPerSecond: 0,
  }
}

/** A start pose that puts the direction `mark` of the ball `fromAxisDeg` away from the spin axis's camera side. */
export function poseWithMark(
  print: Pick<Print, 'at' | 'up'>,
  rotation: Vec3,
  fromAxisDeg: number,
  turnDeg: number,
): Mat3 {
  const axis = unit(rotation)
  const camera = axis[2] > 0 ? scale(axis, -1) : axis
  const side = across(camera)
  const turned = apply(rotationBy(scale(camera, (turnDeg * Math.PI) / 180)), side)
  const lean = (fromAxisDeg * Math.PI) / 180
  const to = add(scale(camera, Math.cos(lean)), scale(turned, Math.sin(lean)))
  return rotationOnto(print.at, print.up, to, length(cross(camera, to)) > 1e-6 ? camera : side)
}

/** The encoder spends less on frames that are shown shortly, so fast clips ask for a finer quality. */
export const h264 = (fps: number): Encoding => ({
  container: 'mp4',
  codec: 'h264',
  crf: fps >= 240 ? 12 : fps >= 120 ? 14 : fps >= 60 ? 16 : 20,
  playbackFps: fps,
  timescale: fps * 100,
  bFrames: 2,
})
