import type { Sense } from '../contract/marks.ts'

/** The ball's circle, pixels of the picture as shown (x right, y down). */
export type Circle = { xPx: number; yPx: number; radiusPx: number }

export type ObservedFrame = { index: number; timeSeconds: number; outline: Circle | null }

/**
 * One mark seen in one frame. `frame` and `mark` are positions in `Observations.frames` and `.marks`.
 * A point needs its frame's outline; a direction's bearing is 0 to the right, growing clockwise.
 */
export type Sighting =
  | { kind: 'point'; frame: number; mark: number; xPx: number; yPx: number; smearArcRad: number | null }
  | { kind: 'direction'; frame: number; mark: number; bearingRad: number }

/**
 * What was seen of one hit, in the core's own units: seconds, pixels, radians; frames in order of time.
 * Built from `whorl.marks/1` by `observationsOf`; the only input of every estimator.
 */
export type Observations = {
  frames: ObservedFrame[]
  marks: { id: string; symmetryOrder: number }[]
  sightings: Sighting[]
  hidden: { frame: number; mark: number }[]
  capture: {
    fps: number
    relativeUncertainty: number | null
    exposureSeconds: number | null
    readoutSeconds: number | null
    readoutUncertaintySeconds: number | null
    focalLengthPx: number | null
    tickSeconds: number | null
  }
  picture: { widthPx: number; heightPx: number }
  ballDiameterMetres: number
  plausible: { maxRateRadPerSecond: number; sense: Sense | null }
  /** A person's own click error, standard uncertainty a coordinate; null when never studied. */
  clickPx: number | null
  /** Half-width of the counted band that the reviewer asks for. */
  wantedHalfWidthRpm?: number | null
  /** Asks for the rate at the first mark, the spin changing evenly from there. */
  withDecay?: boolean
}
