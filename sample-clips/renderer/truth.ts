import { writtenFrames } from './frames.ts'
import { flightAt, poseAt, positionAt, swayAt, turnedAt } from './motion.ts'
import { facing, outlineOf, project } from './outline.ts'
import { centreAt, momentsOf } from './region.ts'
import type { Flight, Print, Scene } from './scene.ts'
import { makeSlabTracer, type SlabTracer } from './slab.ts'
import type { Truth, TruthFlight, TruthFrame, TruthMark } from './truth-form.ts'
import { add, apply, length, scale, subtract, unit, type Vec3 } from './vector.ts'

const round = (value: number, places = 4) => Number(value.toFixed(places))
const vector = (v: Vec3, places = 6) => ({
  x: round(v[0], places),
  y: round(v[1], places),
  z: round(v[2], places),
})
const bearing = (dx: number, dy: number) => round(((Math.atan2(dy, dx) * 180) / Math.PI + 360) % 360)

/** Solves for the moment at which the sensor's row met the thing that `rowAt` follows. */
function seenAt(scene: Scene, t: number, rowAt: (t: number) => number): number {
  const perRow = scene.camera.readoutSeconds / scene.camera.heightPx
  let seen = t
  for (let i = 0; i < 6; i++) seen = t + perRow * rowAt(seen)
  return seen
}

function markAt(
  scene: Scene,
  slab: SlabTracer | null,
  print: Print,
  t: number,
  middle: readonly [number, number],
): TruthMark {
  const at = unit(print.at)
  const radius = scene.ball.diameterMetres / 2
  const [swayX, swayY] = swayAt(scene, t)
  const pointAt = (when: number, own: Vec3) =>
    add(centreAt(scene, when), scale(apply(poseAt(scene.ball, scene.flights, when), own), radius))
  const seen = seenAt(scene, t, when => project(pointAt(when, at), scene.camera)[1] + swayY)
  const point = pointAt(seen, at)
  const [xPx, yPx] = project(point, scene.camera)
  const outward = apply(poseAt(scene.ball, scene.flights, seen), at)
  const towards = facing(point, outward)
  const covered = covers(slab, point, seen)
  const visible = towards > 0 && !covered
  let directionDeg: number | null = null
  if (print.kind === 'logo' && visible) {
    const right = unit(add(at, scale(rightOf(print), 1e-4)))
    const [rx, ry] = project(pointAt(seen, right), scene.camera)
    directionDeg = bearing(rx - xPx, ry - yPx)
  }
  return {
    xPx: round(xPx + swayX),
    yPx: round(yPx + swayY),
    visible,
    facing: round(towards),
    bearingDeg: bearing(xPx + swayX - middle[0], yPx + swayY - middle[1]),
    directionDeg,
  }
}

/** Does the paddle stand between the camera and a point? */
const covers = (slab: SlabTracer | null, point: Vec3, t: number) =>
  slab?.trace(...unit(point), t) === true && slab.met[3]! < length(point)

/** The direction of an artwork's right: across both the way out and its up, seen from outside. */
function rightOf({ at, up }: Print): Vec3 {
  return unit([up[1] * at[2] - up[2] * at[1], up[2] * at[0] - up[0] * at[2], up[0] * at[1] - up[1] * at[0]])
}

type Captured = { index: number; capture: number; t: number }

function frameAt(scene: Scene, slab: SlabTracer | null, { index, capture, t }: Captured): TruthFrame {
  const { timescale, playbackFps } = scene.encoding
  const [swayX, swayY] = swayAt(scene, t)
  const outlineAt = (when: number) =>
    outlineOf(centreAt(scene, when), scene.ball.diameterMetres / 2, scene.camera)
  const seen = seenAt(scene, t, when => outlineAt(when).yPx + swayY)
  const outline = outlineAt(seen)
  const [xPx, yPx] = [outline.xPx + swayX, outline.yPx + swayY]
  const [centreX, centreY] = project(centreAt(scene, seen), scene.camera)
  const points = scene.ball.prints.filter(print => print.kind !== 'line')
  return {
    index,
    timeSeconds: round(t, 7),
    fileTimeSeconds: round(Math.round((capture * timescale) / playbackFps) / timescale, 9),
    xPx: round(xPx),
    yPx: round(yPx),
    radiusPx: round(Math.sqrt(outline.radialPx * outline.tangentialPx)),
    centreXPx: round(centreX + swayX),
    centreYPx: round(centreY + swayY),
    marks: Object.fromEntries(points.map(print => [print.id, markAt(scene, slab, print, t, [xPx, yPx])])),
  }
}

/** Is the ball, over all moments of a frame, inside the picture, clear of the paddle and on `flight`? */
function isWhole(scene: Scene, slab: SlabTracer | null, flight: Flight, t: number): boolean {
  const { widthPx, heightPx } = scene.camera
  const radius = scene.ball.diameterMetres / 2
  const [swayX, swayY] = swayAt(scene, t)
  return momentsOf(scene, t).every(when => {
    if (flightAt(scene.flights, when) !== flight) return false
    const centre = positionAt(flight, when)
    const { xPx, yPx, radialPx, tangentialPx } = outlineOf(centre, radius, scene.camera)
    const reach = Math.max(radialPx, tangentialPx) + 1
    const [x, y] = [xPx + swayX, yPx + swayY]
    if (x < reach || y < reach || x > widthPx - reach || y > heightPx - reach) return false
    return Array.from({ length: 24 }, (_, i) => (i * Math.PI) / 12).every(turn => {
      const rim = add(centre, [radius * Math.cos(turn), radius * Math.sin(turn), 0])
      return !covers(slab, rim, when)
    })
  })
}

function flightTruth(scene: Scene, slab: SlabTracer | null, flight: Flight): TruthFlight | null {
  const times = writtenFrames(scene).map(
    (capture, index): Captured => ({ index, capture, t: capture / scene.camera.fps }),
  )
  const whole = times.filter(({ t }) => isWhole(scene, slab, flight, t))
  const [first, last] = [whole[0], whole.at(-1)]
  if (first === undefined || last === undefined) return null
  const span = last.t - first.t
  const turned = subtract(turnedAt(flight, last.t), turnedAt(flight, first.t))
  const rotation = span > 0 ? scale(turned, 1 / span) : flight.rotationRadPerSecond
  const rate = length(rotation)
  const axis = rate > 0 ? scale(rotation, 1 / rate) : ([0, 0, 1] as const)
  const [before, after] = [positionAt(flight, first.t - 1e-4), positionAt(flight, first.t + 1e-4)]
  return {
    firstFrame: first.index,
    lastFrame: last.index,
    rotationRadPerSecond: vector(rotation),
    rpm: round((rate * 60) / (2 * Math.PI)),
    sense: rotation[2] > 0 ? 'clockwise' : 'counter-clockwise',
    axis: { ...vector(axis), tiltDeg: round((Math.acos(axis[2]) * 180) / Math.PI) },
    spinDecayPerSecond: flight.spinDecayPerSecond,
    velocityMetresPerSecond: vector(scale(subtract(after, before), 1 / 2e-4)),
    positionMetres: vector(positionAt(flight, first.t)),
    dragPerSecond: flight.dragPerSecond,
    frames: whole.map(captured => frameAt(scene, slab, captured)),
  }
}

export function truthOf(scene: Scene): Truth {
  const { camera, ball, encoding } = scene
  const slab = scene.paddle === null ? null : makeSlabTracer(scene, scene.paddle)
  const contactAt = scene.flights[1]?.fromSeconds
  const times = writtenFrames(scene).map(capture => capture / camera.fps)
  const logo = ball.prints.find(print => print.kind === 'logo')
  return {
    schema: 'whorl.truth/1',
    clip: `${scene.name}.${encoding.container}`,
    picture: { widthPx: camera.widthPx, heightPx: camera.heightPx },
    frames: times.length,
    playbackFps: encoding.playbackFps,
    tickSeconds: 1 / encoding.timescale,
    capture: {
      fps: camera.fps,
      exposureSeconds: camera.exposureSeconds,
      readoutSeconds: camera.readoutSeconds,
      focalLengthPx: camera.focalLengthPx,
      droppedFrames: camera.dropped,
    },
    ball: {
      diameterMetres: ball.diameterMetres,
      layout: ball.layout,
      colour: ball.colour,
      logo: logo?.logo ?? null,
    },
    made: {
      lamp: scene.lamp,
      backdrop: scene.backdrop,
      codec: encoding.codec,
      crf: encoding.crf,
      shakePx: camera.shakePx,
      noise: camera.fullWell > 0,
      seed: scene.seed,
    },
    marks: ball.prints.filter(print => print.kind !== 'line').map(({ id }) => ({ id, symmetryOrder: 1 })),
    contact:
      contactAt === undefined
        ? null
        : {
            timeSeconds: contactAt,
            lastFrameBefore: times.findLastIndex(
              t => t + camera.exposureSeconds / 2 + camera.readoutSeconds < contactAt,
            ),
          },
    flights: scene.flights.flatMap(flight => flightTruth(scene, slab, flight) ?? []),
  }
}
