import type { BackdropName } from './backdrops.ts'
import type { LampName } from './lamps.ts'
import type { LayoutName } from './layouts.ts'
import type { LogoName } from './logos.ts'
import type { Mat3, Vec3 } from './vector.ts'

export const ballColours = {
  lime: [0.58, 0.78, 0.07],
  orange: [0.86, 0.27, 0.05],
  white: [0.78, 0.79, 0.76],
  sky: [0.22, 0.52, 0.78],
} as const satisfies Record<string, Vec3>
export const inkColours = {
  navy: [0.012, 0.018, 0.06],
  black: [0.012, 0.012, 0.012],
  crimson: [0.3, 0.008, 0.02],
} as const satisfies Record<string, Vec3>
export type InkColour = keyof typeof inkColours

/** Ink on the ball. `at` and `up` are directions in the ball's own axes; a line runs on the great circle across `at`. */
export type Print = { id: string; at: Vec3; up: Vec3; ink: InkColour } & (
  | { kind: 'logo'; logo: LogoName; widthMetres: number }
  | { kind: 'dot'; widthMetres: number }
  | { kind: 'line'; widthMetres: number }
)

export type Ball = {
  diameterMetres: number
  wallMetres: number
  layout: LayoutName
  colour: keyof typeof ballColours
  prints: Print[]
  /** From the ball's own axes to camera axes when the first flight begins. */
  startPose: Mat3
}

/**
 * Free flight from `fromSeconds` until the next flight begins: gravity, drag in proportion to the speed
 * (so that the path has a closed form), and a rotation vector that keeps its direction in camera axes.
 */
export type Flight = {
  fromSeconds: number
  positionMetres: Vec3
  velocityMetresPerSecond: Vec3
  dragPerSecond: number
  rotationRadPerSecond: Vec3
  /** The rate falls as exp(−t·spinDecayPerSecond). */
  spinDecayPerSecond: number
}

/** A flat paddle that passes through `centreMetres` at `atSeconds`; its face looks along x before `tilt` turns it. */
export type Paddle = {
  atSeconds: number
  centreMetres: Vec3
  velocityMetresPerSecond: Vec3
  tiltRad: Vec3
  sizeMetres: { thickness: number; height: number; width: number }
}

export type Camera = {
  widthPx: number
  heightPx: number
  fps: number
  /** Shutter of one row. */
  exposureSeconds: number
  /** From the first row to the last (rolling shutter); 0 for a global shutter. */
  readoutSeconds: number
  focalLengthPx: number
  /** Spread of the lens beyond the pixel's own square. */
  lensBlurPx: number
  /** Electrons of a white pixel; shot noise follows. 0 for a camera without noise. */
  fullWell: number
  readNoiseElectrons: number
  /** Largest sway of a camera held by hand. */
  shakePx: number
  /** Captured frames that were never written. */
  dropped: number[]
}

export type Encoding = {
  container: 'mp4' | 'mov'
  codec: 'h264' | 'hevc'
  crf: number
  /** What the file asks a player for; the camera's rate unless the clip was retimed. */
  playbackFps: number
  /** Ticks a second of the container's times. */
  timescale: number
  bFrames: number
}

/** Everything a clip is made from. Two equal scenes give equal pictures. */
export type Scene = {
  name: string
  seed: number
  /** Frames captured, the dropped ones counted. */
  captured: number
  camera: Camera
  ball: Ball
  flights: Flight[]
  paddle: Paddle | null
  lamp: LampName
  /** Mains flicker of the lamp: light swings by ±depth at twice `mainsHz`. */
  flicker: { mainsHz: number; depth: number } | null
  backdrop: BackdropName
  /** The room's size against its drawing, and how far its floor or table lies below the camera. */
  room: { scale: number; floorYMetres: number }
  encoding: Encoding
}
