import { createHash } from 'node:crypto'
import { existsSync, readFileSync } from 'node:fs'
import type { Clip } from '../../../core/contract/clip.ts'
import { WhorlError } from '../../../core/contract/problem.ts'
import type { Media } from '../../../electron/media/media.ts'

/**
 * Clips without decoding: a file that begins with "clip" is one of 60 frames at 240 fps whose contents
 * are its hash, cut off where they say "truncated"; any other file is no clip. `before` is waited for ahead of each probe.
 */
export function standInMedia(before: (path: string, signal?: AbortSignal) => Promise<void> = async () => {}) {
  const probed: string[] = []
  const media: Media = {
    programs: async () => {
      const program = { path: '', origin: 'stand-in', version: '' }
      return { ffmpeg: program, ffprobe: program }
    },
    probe: async (path, { signal } = {}) => {
      probed.push(path)
      await before(path, signal)
      if (!existsSync(path)) throw new WhorlError('file-not-found', { path })
      const bytes = readFileSync(path)
      if (!bytes.toString().startsWith('clip'))
        throw new WhorlError('clip-not-video', { path, what: 'it is text' })
      return clipOf(path, bytes)
    },
    timestamps: async path => {
      if (!existsSync(path)) throw new WhorlError('file-not-found', { path })
      return Array.from({ length: 60 }, (_, i) => i / 240)
    },
    frame: async () => ({ widthPx: 2, heightPx: 2, data: new Uint8Array(6) }),
    prepare: async () => {},
    lumaWindow: async function* () {},
    close: async () => {},
  }
  return { media, probed }
}

const clipOf = (path: string, bytes: Buffer): Clip => ({
  schema: 'whorl.clip/1',
  path,
  sha256: createHash('sha256').update(bytes).digest('hex'),
  bytes: bytes.length,
  container: 'mp4',
  codec: 'h264',
  pixelFormat: 'yuv420p',
  widthPx: 960,
  heightPx: 540,
  rotationDeg: 0,
  frames: 60,
  durationSeconds: 0.25,
  playbackFps: 240,
  timestamps: { tickSeconds: 1 / 15360, even: true, gaps: [], repeats: [] },
  capture: { fps: 240, source: 'timestamps', relativeUncertainty: 0.0005 },
  warnings: bytes.includes('truncated') ? [{ code: 'truncated', message: 'The file is cut off.' }] : [],
})
