/**
 * `whorl.truth/1`: what was put into a clip.
 *
 * Pixels are of the picture as shown, x right, y down; the first pixel covers 0…1, its middle is 0.5.
 * `timeSeconds` of a frame is real time at the middle of its first row's exposure. With a rolling shutter
 * a thing at image row y was seen at timeSeconds + readoutSeconds·y/heightPx; its position here is where
 * it was then, so it is where the picture shows it. Camera axes: x right, y down, z away.
 */
export type Truth = {
  schema: 'whorl.truth/1'
  clip: string
  picture: { widthPx: number; heightPx: number }
  frames: number
  playbackFps: number
  tickSeconds: number
  capture: {
    fps: number
    exposureSeconds: number
    readoutSeconds: number
    focalLengthPx: number
    droppedFrames: number[]
  }
  ball: { diameterMetres: number; layout: string; colour: string; logo: string | null }
  made: {
    lamp: string
    backdrop: string
    codec: string
    crf: number
    shakePx: number
    noise: boolean
    seed: number
  }
  marks: { id: string; symmetryOrder: number }[]
  /** Real time of the contact, and the last frame that lies wholly before it. */
  contact: { timeSeconds: number; lastFrameBefore: number } | null
  flights: TruthFlight[]
}

export type TruthFlight = {
  /** First and last frame in which the ball is whole, uncovered and on this flight. */
  firstFrame: number
  lastFrame: number
  /** Mean over the window; right-hand rule, camera axes. */
  rotationRadPerSecond: { x: number; y: number; z: number }
  rpm: number
  sense: 'clockwise' | 'counter-clockwise'
  axis: { x: number; y: number; z: number; tiltDeg: number }
  spinDecayPerSecond: number
  /** At the first frame. */
  velocityMetresPerSecond: { x: number; y: number; z: number }
  positionMetres: { x: number; y: number; z: number }
  dragPerSecond: number
  frames: TruthFrame[]
}

export type TruthFrame = {
  index: number
  timeSeconds: number
  /** The file's own time: in ticks, and at the playback rate. */
  fileTimeSeconds: number
  /** The outline's middle (of the ellipse) and the root of the product of its half axes. */
  xPx: number
  yPx: number
  radiusPx: number
  /** Where the ball's centre itself shows. */
  centreXPx: number
  centreYPx: number
  marks: Record<string, TruthMark>
}

/** `facing`: cosine between the surface's outward direction and the way to the camera. */
export type TruthMark = {
  xPx: number
  yPx: number
  visible: boolean
  facing: number
  /** About the outline's middle, 0 to the right, clockwise. */
  bearingDeg: number
  /** A logo's own direction (its artwork's right), where it can be seen. */
  directionDeg: number | null
}
