import { BALL_METRES, flightThrough, h264, leaning, poseWithMark, rateOf } from './compose.ts'
import { bench, type Case, printsOf } from './settings.ts'
import { add, apply, rotationBy, scale, type Vec3 } from './vector.ts'

const THICKNESS = 0.014

/** A ball comes in from the right with a little backspin; a paddle brushes up through it and sends it back with topspin. */
export function contactCase(): Case {
  const { camera, ball, lamp, backdrop, room, logo, knows } = bench
  const contactSeconds = 25.4 / camera.fps
  const met = { atSeconds: contactSeconds, atPx: [300, 215] as const, radiusPx: 41 }
  const incoming = scale(leaning(12, 210), rateOf(640))
  const outgoing = scale(leaning(9, 300), rateOf(1868))
  const prints = printsOf(ball.layout, logo)
  const out = flightThrough(camera, met, [6.3, -0.9, 0.15], outgoing)
  const tiltRad: Vec3 = [0, 0.16, 0.14]
  const face = apply(rotationBy(tiltRad), [1, 0, 0])
  return {
    scene: {
      name: 'contact-240',
      seed: 14,
      captured: 50,
      camera,
      ball: {
        ...ball,
        diameterMetres: BALL_METRES,
        wallMetres: 0.0014,
        prints,
        startPose: poseWithMark(prints[0], incoming, 42, 200),
      },
      flights: [
        { ...flightThrough(camera, met, [-5.1, 0.5, 0.1], incoming), fromSeconds: contactSeconds },
        out,
      ],
      paddle: {
        atSeconds: contactSeconds,
        centreMetres: add(out.positionMetres, scale(face, -(BALL_METRES + THICKNESS) / 2)),
        velocityMetresPerSecond: [2.6, -2.4, 0],
        tiltRad,
        sizeMetres: { thickness: THICKNESS, height: 0.28, width: 0.2 },
      },
      lamp,
      backdrop,
      room,
      flicker: null,
      encoding: h264(camera.fps),
    },
    clicks: { flight: 1, marks: ['logo', 'dot'], frames: 18, seed: 14, knows },
  }
}
