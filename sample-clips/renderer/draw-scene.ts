import type { BackdropName } from './backdrops.ts'
import { BALL_METRES, flightThrough, h264, rateOf } from './compose.ts'
import type { LampName } from './lamps.ts'
import { freeSpot, type LayoutName } from './layouts.ts'
import type { LogoName } from './logos.ts'
import type { Random } from './random.ts'
import {
  type Ball,
  ballColours,
  type Camera,
  type Flight,
  type Paddle,
  type Print,
  type Scene,
} from './scene.ts'
import { add, apply, rotationBy, scale, unit, type Vec3 } from './vector.ts'

/** What a scene may be drawn from. */
export type Choices = {
  lamps: LampName[]
  backdrops: BackdropName[]
  layouts: LayoutName[]
  logos: LogoName[]
}
/** What there is to see on the ball. */
export type Surface = 'holes' | 'logo' | 'holes-and-logo'

const logBetween = (random: Random, low: number, high: number) =>
  Math.exp(random.between(Math.log(low), Math.log(high)))
const chance = (random: Random, share: number) => random.next() < share

function drawBall(random: Random, choices: Choices, surface: Surface): Ball {
  const layout = surface === 'logo' ? 'closed' : random.pick(choices.layouts)
  const widthMetres = random.between(0.026, 0.036)
  const logo = { kind: 'logo', logo: random.pick(choices.logos), widthMetres } as const
  const ink = random.pick(['navy', 'black', 'crimson'] as const)
  const prints: Print[] = [
    { ...logo, id: 'logo', at: [0, 0, 1], up: [1, 0, 0], ink },
    { ...logo, id: 'logo-back', at: [0, 0, -1], up: unit([random.gauss(), random.gauss(), 0]), ink },
    { id: 'dot', kind: 'dot', at: freeSpot(layout, [0.9, 0.3, 0.2]), up: [0, 0, 1], widthMetres: 0.01, ink },
  ]
  return {
    diameterMetres: BALL_METRES,
    wallMetres: random.between(0.0012, 0.0016),
    layout,
    colour: random.pick(Object.keys(ballColours) as (keyof typeof ballColours)[]),
    prints: surface === 'holes' ? [] : prints,
    startPose: rotationBy(scale(random.direction(), random.between(0, Math.PI))),
  }
}

function drawCamera(random: Random): Camera {
  const fps = random.pick([120, 240])
  const large = chance(random, 0.15)
  return {
    widthPx: large ? 1280 : 960,
    heightPx: large ? 720 : 540,
    fps,
    exposureSeconds: 1 / logBetween(random, 250, 4000),
    readoutSeconds: chance(random, 0.35) ? random.between(0.4, 0.95) / fps : 0,
    focalLengthPx: random.between(0.85, 1.7) * (large ? 1280 : 960),
    lensBlurPx: random.between(0.2, 0.9),
    fullWell: chance(random, 0.1) ? 0 : logBetween(random, 2500, 20000),
    readNoiseElectrons: random.between(4, 20),
    shakePx: chance(random, 0.2) ? random.between(0.3, 1.5) : 0,
    dropped: [],
  }
}

/** A velocity that crosses the picture in about `frames` frames, mostly level, at most 22 m/s. */
function drawVelocity(random: Random, camera: Camera, radiusPx: number, frames: number): Vec3 {
  const metresPerPx = BALL_METRES / 2 / radiusPx
  const steep = chance(random, 0.12)
  const pathPx = (steep ? camera.heightPx : camera.widthPx) - 2 * radiusPx
  const speed = Math.min(22, (pathPx * metresPerPx * camera.fps) / frames)
  const lean = steep ? Math.PI / 2 + random.between(-0.3, 0.3) : random.between(-0.25, 0.25)
  const side = chance(random, 0.5) ? 1 : -1
  return [side * speed * Math.cos(lean), speed * Math.sin(lean), speed * random.between(-0.15, 0.15)]
}

const drawSpin = (random: Random): Vec3 => scale(random.direction(), rateOf(random.between(300, 3000)))

/** Drag of a perforated ball near 15 m/s as a rate, v′ = −k·v: a common 0.3–0.6 1/s, no source. */
const drawDrag = (random: Random) => random.between(0.2, 0.6)

function drawFlight(random: Random, camera: Camera, radiusPx: number, frames: number): Flight {
  const atPx = [
    camera.widthPx * random.between(0.42, 0.58),
    camera.heightPx * random.between(0.3, 0.55),
  ] as const
  const velocity = drawVelocity(random, camera, radiusPx, frames)
  const atSeconds = (frames / 2 + 3) / camera.fps
  return {
    ...flightThrough(camera, { atSeconds, atPx, radiusPx }, velocity, drawSpin(random)),
    dragPerSecond: drawDrag(random),
    spinDecayPerSecond: chance(random, 0.2) ? random.between(0.05, 0.3) : 0,
  }
}

/** The ball comes in from one side, meets a paddle near the middle, and goes back with another spin. */
function drawContact(random: Random, camera: Camera, radiusPx: number, frames: number) {
  const fromSeconds = (frames / 2 + random.next()) / camera.fps
  const atPx = [
    camera.widthPx * random.between(0.3, 0.42),
    camera.heightPx * random.between(0.35, 0.5),
  ] as const
  const pass = { atSeconds: fromSeconds, atPx, radiusPx }
  const reach = camera.widthPx * 0.6 * (BALL_METRES / 2 / radiusPx)
  const speed = (reach * camera.fps) / (frames / 2)
  const speedIn = speed * random.between(0.8, 1)
  const incoming = flightThrough(
    camera,
    pass,
    [-speedIn, random.between(-0.1, 0.2) * speedIn, 0],
    drawSpin(random),
  )
  const outgoing = flightThrough(camera, pass, [speed, random.between(-0.3, 0) * speed, 0], drawSpin(random))
  const thickness = random.between(0.011, 0.016)
  const tiltRad: Vec3 = [0, random.between(0.05, 0.2), random.between(-0.1, 0.2)]
  const face = apply(rotationBy(tiltRad), [1, 0, 0])
  const paddle: Paddle = {
    atSeconds: fromSeconds,
    centreMetres: add(outgoing.positionMetres, scale(face, -(BALL_METRES + thickness) / 2)),
    velocityMetresPerSecond: [speed * random.between(0.2, 0.5), -speed * random.between(0, 0.5), 0],
    tiltRad,
    sizeMetres: { thickness, height: 0.28, width: 0.2 },
  }
  return { flights: [incoming, outgoing], paddle }
}

/** Shortens the exposure until the flight smears less than 0.6 of the radius; no person would film otherwise. */
function tamed(camera: Camera, flights: readonly Flight[], radiusPx: number): Camera {
  const fastest = Math.max(...flights.map(({ velocityMetresPerSecond: v }) => Math.hypot(...v)))
  const pxPerSecond = (fastest * radiusPx) / (BALL_METRES / 2)
  return { ...camera, exposureSeconds: Math.min(camera.exposureSeconds, (0.6 * radiusPx) / pxPerSecond) }
}

/** One hit with everything about it drawn at random. */
export function drawScene(
  random: Random,
  name: string,
  seed: number,
  choices: Choices,
  surface: Surface,
): Scene {
  const drawn = drawCamera(random)
  const radiusPx = random.between(20, 70)
  const frames = Math.round(drawn.fps === 240 ? random.between(22, 44) : random.between(16, 32))
  const hit = chance(random, 0.2)
    ? drawContact(random, drawn, radiusPx, frames)
    : { flights: [drawFlight(random, drawn, radiusPx, frames)], paddle: null }
  const camera = tamed(drawn, hit.flights, radiusPx)
  const depth = hit.flights[0]!.positionMetres[2]
  // The floor lies below the picture where the ball is, so that no flight runs into it.
  const floorYMetres = ((camera.heightPx / 2) * depth) / camera.focalLengthPx + BALL_METRES / 2
  return {
    name,
    seed,
    captured: frames + 6,
    camera,
    ball: drawBall(random, choices, surface),
    ...hit,
    lamp: random.pick(choices.lamps),
    flicker: chance(random, 0.1)
      ? { mainsHz: random.pick([50, 60]), depth: random.between(0.04, 0.15) }
      : null,
    backdrop: random.pick(choices.backdrops),
    room: { scale: depth / 1.25, floorYMetres },
    encoding: { ...h264(camera.fps), crf: Math.round(random.between(18, 28)) },
  }
}
