/** `npx tsx tests/bench/clip.ts`: an annotated clip beside ffmpeg, which writes the same frames again by the same encoder. */
import { execFileSync } from 'node:child_process'
import { existsSync, mkdirSync, renameSync } from 'node:fs'
import { tmpdir } from 'node:os'
import { join } from 'node:path'
import { clipOrderSchema, usualClip } from '../../core/contract/publish.ts'
import { median } from '../../core/numerics/median.ts'
import { Children } from '../../electron/media/children.ts'
import { createMedia } from '../../electron/media/create-media.ts'
import { findTools } from '../../electron/media/programs.ts'
import { hitClip } from '../../electron/publish/hit-clip.ts'
import type { HitEvidence } from '../../electron/publish/hit-evidence.ts'
import { sampleReading } from '../electron/store/sample-reading.ts'

const frames = 120
const [widthPx, heightPx] = [1280, 720]
const { ffmpeg } = await findTools(new Children(), 'any')
const quiet = ['-v', 'error', '-nostdin', '-y']

/** Half a second of 720p at 240 fps, with noise, made once and kept in the system's temporary folder. */
function hitClipFile(): string {
  const folder = join(tmpdir(), 'whorl-bench')
  const path = join(folder, '720p240-half-a-second.mp4')
  if (existsSync(path)) return path
  mkdirSync(folder, { recursive: true })
  const source = ['-f', 'lavfi', '-i', `testsrc2=s=${widthPx}x${heightPx}:r=240:d=0.5,noise=alls=10:allf=t`]
  const coder = ['-c:v', 'libx264', '-preset', 'fast', '-crf', '18', '-pix_fmt', 'yuv420p']
  execFileSync(ffmpeg.path, [...quiet, ...source, ...coder, `${path}.part.mp4`])
  renameSync(`${path}.part.mp4`, path)
  return path
}

/** A ball that flies across the whole clip, with a mark in every frame: as much to draw as there can be. */
function evidenceOn(path: string): HitEvidence {
  const xPx = (frame: number) => 100 + (1080 * frame) / frames
  return {
    name: 'Heron 14',
    captureFps: 240,
    reading: sampleReading({ axis: { x: 0.3, y: 0.8, z: 0.52, tiltDeg: 58, uncertaintyDeg: 1 } }),
    window: { fromFrame: 0, toFrame: frames - 1 },
    timesSeconds: Array.from({ length: frames }, (_, i) => i / 240),
    clip: { path, name: 'bench.mp4', probe: { widthPx, heightPx } },
    marks: {
      window: { fromFrame: 0, toFrame: frames - 1 },
      marks: [{ id: 'logo', symmetryOrder: 1, kind: 'point' }],
      outlines: [0, frames - 1].map(frame => ({ frame, xPx: xPx(frame), yPx: 360, radiusPx: 60 })),
      sightings: Array.from({ length: frames }, (_, frame) => ({
        ...{ frame, mark: 'logo', kind: 'point', xPx: xPx(frame) + 20, yPx: 340 },
      })),
    },
  } as unknown as HitEvidence
}

/** Takes both by turns, so that what else the machine does meets both; ours over ffmpeg alone, in speed. */
async function measured(repeats: number) {
  const path = hitClipFile()
  const media = createMedia()
  const order = clipOrderSchema.parse({ ...usualClip, hitId: 'bench', format: 'mp4' })
  const context = { signal: new AbortController().signal, progress: () => {} }
  const again = [
    ...['-r', '30', '-i', path, '-an', '-c:v', 'libx264', '-preset', 'medium', '-crf', '18'],
    ...['-pix_fmt', 'yuv420p', '-movflags', '+faststart', join(tmpdir(), 'whorl-bench', 'again.mp4')],
  ]
  const taken: { ours: number; plain: number }[] = []
  try {
    for (let repeat = 0; repeat < repeats; repeat++) {
      const from = performance.now()
      await hitClip(media, evidenceOn(path), order, context)
      const between = performance.now()
      execFileSync(ffmpeg.path, [...quiet, ...again])
      taken.push({ ours: between - from, plain: performance.now() - between })
    }
  } finally {
    await media.close()
  }
  return taken
}

// The first run warms up decoder and compiler.
const taken = (await measured(4)).slice(1)
const ours = median(taken.map(one => one.ours))
const plain = median(taken.map(one => one.plain))
const speed = median(taken.map(one => one.plain / one.ours))
process.stdout.write(
  `annotated clip of ${frames} frames, ${heightPx}p: ${ours.toFixed(0)} ms; ffmpeg alone writes them again in ` +
    `${plain.toFixed(0)} ms; ${speed.toFixed(2)} of its speed (target 0.5)\n`,
)
