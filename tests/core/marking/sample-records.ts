import type { Clip } from '../../../core/contract/clip.ts'
import type { SessionDetails } from '../../../core/contract/workspace.ts'

/** A probed clip and a session as a careful person would have entered it. Everything here is invented. */
export const clip: Clip = {
  schema: 'whorl.clip/1',
  path: '/clips/drive 01.mp4',
  sha256: 'a'.repeat(64),
  bytes: 812_345,
  container: 'mp4',
  codec: 'h264',
  pixelFormat: 'yuv420p',
  widthPx: 960,
  heightPx: 540,
  rotationDeg: 0,
  frames: 50,
  durationSeconds: 50 / 240,
  playbackFps: 240,
  timestamps: { tickSeconds: 1 / 15360, even: true, gaps: [], repeats: [] },
  capture: { fps: 240, source: 'timestamps', relativeUncertainty: 1e-4 },
  warnings: [],
}

export const session: SessionDetails = {
  day: '2026-05-31',
  place: 'Bench 2',
  camera: {
    name: 'Kestrel high-speed',
    captureFps: 240,
    relativeUncertainty: 5e-5,
    exposureSeconds: 1 / 2000,
    readoutSeconds: 0.004,
    readoutUncertaintySeconds: 0.0005,
    focalLengthPx: 1100,
  },
  ball: { name: 'Outdoor, 40 holes', diameterMetres: 0.074 },
  hitBy: 'Launcher',
  maxRpm: 5000,
  clickStandardUncertaintyPx: 0.8,
  notes: '',
}
