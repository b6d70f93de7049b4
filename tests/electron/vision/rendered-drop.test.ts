import { mkdtempSync, rmSync } from 'node:fs'
import { tmpdir } from 'node:os'
import { join } from 'node:path'
import { afterAll, beforeAll, expect, it } from 'vitest'
import { createMedia } from '../../../electron/media/create-media.ts'
import { checkClip } from '../../../electron/service/check-clip.ts'
import { createVision } from '../../../electron/vision/vision.ts'
import { BALL_METRES, flightThrough, h264, poseWithMark } from '../../../sample-clips/renderer/compose.ts'
import { encode } from '../../../sample-clips/renderer/encode.ts'
import { renderFrames } from '../../../sample-clips/renderer/frames.ts'
import type { Camera, Scene } from '../../../sample-clips/renderer/scene.ts'
import { bench, printsOf } from '../../../sample-clips/renderer/settings.ts'
import type { Vec3 } from '../../../sample-clips/renderer/vector.ts'

const trueFps = 117
const camera: Camera = {
  ...bench.camera,
  widthPx: 480,
  heightPx: 640,
  fps: trueFps,
  exposureSeconds: 1 / 1000,
  focalLengthPx: 900,
}
const rotation: Vec3 = [0, 0, 6]
const prints = printsOf(bench.ball.layout, bench.logo)

/** A ball let go near the top of an upright picture, by gravity alone (9.80665 m/s², 3rd CGPM 1901). */
const drop: Scene = {
  name: 'drop',
  seed: 71,
  captured: 44,
  camera,
  ball: {
    ...bench.ball,
    diameterMetres: BALL_METRES,
    wallMetres: 0.0014,
    prints,
    startPose: poseWithMark(prints[0], rotation, 50, 0),
  },
  flights: [flightThrough(camera, { atSeconds: 0, atPx: [240, 50], radiusPx: 22 }, [0.1, 0.2, 0], rotation)],
  paddle: null,
  lamp: bench.lamp,
  backdrop: bench.backdrop,
  room: { scale: 1, floorYMetres: 1.2 },
  flicker: null,
  encoding: h264(trueFps),
}

const folder = mkdtempSync(join(tmpdir(), 'whorl-drop-'))
const path = join(folder, 'drop.mp4')
const media = createMedia()
const vision = createVision(media, { workers: 1 })
beforeAll(() => encode(drop, renderFrames(drop), path), 300_000)
afterAll(async () => {
  await vision.close()
  await media.close()
  rmSync(folder, { recursive: true, force: true })
})

it('finds the true rate of a camera from a rendered drop within 1 %, and says how sure it is', async () => {
  // So heavy a ball feels no drag; the rendered one has none.
  const ask = {
    way: 'drop',
    nominalFps: 120,
    massKilograms: 1000,
    diameterMetres: BALL_METRES,
  } as const
  const { rate } = await checkClip({ media, vision }, path, ask, {})
  expect(rate!.captureFps).toBeGreaterThan(trueFps * 0.99)
  expect(rate!.captureFps).toBeLessThan(trueFps * 1.01)
  expect(Math.abs(rate!.captureFps / trueFps - 1)).toBeLessThan(2 * rate!.relativeUncertainty)
  expect(rate!.relativeUncertainty).toBeLessThan(0.01)
}, 300_000)
