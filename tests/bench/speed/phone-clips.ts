import { execFileSync, spawn } from 'node:child_process'
import { once } from 'node:events'
import { existsSync, mkdirSync, renameSync } from 'node:fs'
import { tmpdir } from 'node:os'
import { join } from 'node:path'
import { contactCase } from '../../../sample-clips/renderer/contact-case.ts'
import { renderFrames } from '../../../sample-clips/renderer/frames.ts'
import type { Scene } from '../../../sample-clips/renderer/scene.ts'
import { truthOf } from '../../../sample-clips/renderer/truth.ts'
import type { Truth } from '../../../sample-clips/renderer/truth-form.ts'
import { ffmpeg, quiet } from './plain-ffmpeg.ts'

const noise = 'noise=alls=10:allf=t'
/** As a phone writes: 50 Mbit/s, a key picture a second. */
const coder = (preset: string) => [
  ...['-c:v', 'libx264', '-preset', preset, '-bf', '2', '-g', '240', '-pix_fmt', 'yuv420p'],
  ...['-b:v', '50M', '-maxrate', '60M', '-bufsize', '50M'],
]
const folder = join(tmpdir(), 'whorl-bench')
const unfinished = (path: string) => `${path}.part.mp4`

/** 10 s of 1080p at 240 fps, H.264, noise. Made once and kept in the system's folder for temporary files. */
export function phoneClip(): string {
  const path = join(folder, '1080p240-10s.mp4')
  if (existsSync(path)) return path
  mkdirSync(folder, { recursive: true })
  const source = ['-f', 'lavfi', '-i', `testsrc2=s=1920x1080:r=240:d=10,${noise}`]
  execFileSync(ffmpeg.path, [...quiet, '-y', ...source, ...coder('ultrafast'), unfinished(path)])
  renameSync(unfinished(path), path)
  return path
}

const framesBefore = 1400
const framesInAll = 2400

/**
 * As long and as large, but a still room, in which a ball comes in, meets a paddle and flies back. The contact of the
 * samples in a wider picture, long enough that ball and paddle come in and leave; before and behind it the empty room,
 * over all of it the coder's input noise. Coded with CABAC and the loop filter, as phones do. `truth` is that of the
 * rendered part alone, which begins at `framesBefore`.
 */
export async function phoneHit(): Promise<{ path: string; framesBefore: number; truth: Truth }> {
  const scene = wideContact()
  const path = join(folder, 'hit-1080p240-10s.mp4')
  if (!existsSync(path)) {
    mkdirSync(folder, { recursive: true })
    const framesAfter = framesInAll - framesBefore - scene.captured
    const still = `tpad=start=${framesBefore}:start_mode=clone:stop=${framesAfter}:stop_mode=clone`
    const source = ['-f', 'rawvideo', '-pix_fmt', 'yuv420p', '-s', '1920x1080', '-r', '240', '-i', 'pipe:0']
    const words = [...quiet.slice(0, 2), '-y', ...source, '-vf', `${still},${noise}`, ...coder('superfast')]
    const child = spawn(ffmpeg.path, [...words, unfinished(path)], { stdio: ['pipe', 'ignore', 'inherit'] })
    const ended = once(child, 'close')
    for (const frame of renderFrames(scene))
      if (!child.stdin.write(frame)) await Promise.race([once(child.stdin, 'drain'), ended])
    child.stdin.end()
    const [code] = await ended
    if (code !== 0) throw new Error(`ffmpeg ended with ${code}; expected the clip at ${path}`)
    renameSync(unfinished(path), path)
  }
  return { path, framesBefore, truth: truthOf(scene) }
}

function wideContact(): Scene {
  const { scene } = contactCase()
  const later = 30 / scene.camera.fps
  const size = { widthPx: 1920, heightPx: 1080, focalLengthPx: 1.3 * scene.camera.focalLengthPx }
  return {
    ...scene,
    captured: 124,
    camera: { ...scene.camera, ...size, lensBlurPx: 0.5, fullWell: 0, readNoiseElectrons: 0 },
    flights: scene.flights.map(flight => ({ ...flight, fromSeconds: flight.fromSeconds + later })),
    paddle: { ...scene.paddle!, atSeconds: scene.paddle!.atSeconds + later },
  }
}
