import type { Ball, Flight, Scene } from './scene.ts'
import { add, length, type Mat3, multiply, rotationBy, scale, type Vec3 } from './vector.ts'

/** Standard gravity, 3rd CGPM 1901; the camera is level, y points down. */
const gravity: Vec3 = [0, 9.80665, 0]

/** Where the ball's centre is at time t, in camera axes. */
export function positionAt(flight: Flight, t: number): Vec3 {
  const { positionMetres, velocityMetresPerSecond, dragPerSecond: k } = flight
  const since = t - flight.fromSeconds
  if (k === 0) {
    return add(
      positionMetres,
      add(scale(velocityMetresPerSecond, since), scale(gravity, (since * since) / 2)),
    )
  }
  const reach = (1 - Math.exp(-k * since)) / k
  return add(positionMetres, add(scale(velocityMetresPerSecond, reach), scale(gravity, (since - reach) / k)))
}

/** How far the ball has turned about its fixed axis since the flight began, as a rotation vector. */
export function turnedAt(flight: Flight, t: number): Vec3 {
  const since = t - flight.fromSeconds
  const k = flight.spinDecayPerSecond
  return scale(flight.rotationRadPerSecond, k === 0 ? since : (1 - Math.exp(-k * since)) / k)
}

/** The flight that the ball is on at time t; before the first one it is taken to have been on it already. */
export const flightAt = (flights: readonly Flight[], t: number): Flight =>
  flights.findLast(flight => flight.fromSeconds <= t) ?? flights[0]!

/** From the ball's own axes to camera axes at time t. */
export function poseAt(ball: Ball, flights: readonly Flight[], t: number): Mat3 {
  let pose = ball.startPose
  flights.forEach((flight, i) => {
    if (i > 0 && flight.fromSeconds > t) return
    const until = Math.min(t, flights[i + 1]?.fromSeconds ?? t)
    pose = multiply(rotationBy(turnedAt(flight, until)), pose)
  })
  return pose
}

/** The camera's sway at time t, in pixels of the picture: three slow tremors, never more than `shakePx`. */
export function swayAt({ camera: { shakePx }, seed }: Scene, t: number): readonly [number, number] {
  if (shakePx === 0) return [0, 0]
  const tremor = (hz: number, phase: number) => Math.sin(2 * Math.PI * hz * t + phase + seed)
  return [
    (shakePx * (tremor(2.3, 0) + tremor(5.1, 2) + tremor(8.7, 4))) / 3,
    (shakePx * (tremor(2.9, 1) + tremor(6.3, 3) + tremor(9.4, 5))) / 3,
  ]
}

/** The fastest thing on the picture, in pixels a second: flight and turning surface together. */
export const surfaceSpeedPx = (scene: Scene, flight: Flight): number =>
  ((length(flight.velocityMetresPerSecond) +
    (length(flight.rotationRadPerSecond) * scene.ball.diameterMetres) / 2) *
    scene.camera.focalLengthPx) /
  length(flight.positionMetres)
