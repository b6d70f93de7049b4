import { execFileSync } from 'node:child_process'
import { createHash } from 'node:crypto'
import { copyFileSync, mkdtempSync, readFileSync, rmSync, writeFileSync } from 'node:fs'
import { tmpdir } from 'node:os'
import { join } from 'node:path'
import { makers } from './builds.ts'

/** A folder of small clips for one test file, made when asked for and removed at the end. */
export class Clips {
  readonly folder = mkdtempSync(join(tmpdir(), 'whorl-clips-'))
  #made = new Map<string, string>()

  path = (name: string): string => join(this.folder, name)

  remove(): void {
    rmSync(this.folder, { recursive: true, force: true })
  }

  /** Runs ffmpeg with these words and the clip's path behind them. */
  make(name: string, ...words: string[]): string {
    const path = this.path(name)
    if (this.#made.has(name)) return path
    execFileSync(makers.ffmpeg.path, ['-v', 'error', '-nostdin', '-y', ...words, path])
    this.#made.set(name, path)
    return path
  }

  /** 60 pictures that all differ, 240 a second. `filters` come behind the source. */
  film(name: string, coder: string[], filters: string[] = []): string {
    const source = `testsrc2=s=160x96:r=240:d=0.25,noise=alls=20:allf=t:all_seed=7`
    const graph = [source, ...filters].join(',')
    return this.make(name, '-f', 'lavfi', '-i', graph, ...coder, ...makers.everyFrame)
  }

  copy(from: string, name: string, change: (bytes: Buffer) => Buffer = bytes => bytes): string {
    writeFileSync(this.path(name), change(readFileSync(from)))
    return this.path(name)
  }

  rename(from: string, name: string): string {
    copyFileSync(from, this.path(name))
    return this.path(name)
  }
}

export const h264 = (...more: string[]) => [
  '-c:v',
  'libx264',
  '-pix_fmt',
  'yuv420p',
  '-bf',
  '3',
  '-g',
  '20',
  ...more,
]
/** With open groups of pictures: some lean on the key picture after them. */
export const hevc = (...more: string[]) => [
  ...['-c:v', 'libx265', '-pix_fmt', 'yuv420p', '-preset', 'veryfast'],
  ...['-x265-params', 'log-level=error:crf=18:keyint=20:min-keyint=20:bframes=4:open-gop=1', ...more],
]

/** Turns every track of an MP4 by writing its display matrix: clockwise, in right angles (ISO 14496-12, 8.3.2). */
export function turned(clockwiseDeg: 0 | 90 | 180 | 270): (bytes: Buffer) => Buffer {
  const [cos, sin] = { 0: [1, 0], 90: [0, 1], 180: [-1, 0], 270: [0, -1] }[clockwiseDeg] as [number, number]
  return bytes => {
    const tkhd = bytes.indexOf('tkhd', 0, 'latin1')
    const matrix = tkhd + 4 + 4 + (bytes[tkhd + 4] === 1 ? 32 : 20) + 16
    const fixed = [cos, sin, 0, -sin, cos, 0].map(n => n * 0x10000)
    for (const [i, value] of fixed.entries()) bytes.writeInt32BE(value, matrix + 4 * i)
    return bytes
  }
}

export type FullDecode = { hashes: string[]; widthPx: number; heightPx: number; timesSeconds: number[] }

const decoded = new Map<string, FullDecode>()

/** Every picture and its time, from one plain decode of the whole clip by ffmpeg and ffprobe alone. */
export function decodeWhole(path: string): FullDecode {
  const known = decoded.get(path)
  if (known) return known
  const words = ['-v', 'error', '-select_streams', 'v:0', '-of', 'json']
  const entries = 'frame=best_effort_timestamp:stream=time_base,width,height'
  const listed = execFileSync(
    makers.ffprobe.path,
    [...words, '-show_frames', '-show_entries', entries, path],
    {
      env: { ...process.env, GCONV_PATH: '/nonexistent' },
    },
  )
  const { frames, streams } = JSON.parse(listed.toString())
  const [num, den] = streams[0].time_base.split('/').map(Number)
  // yuv4mpeg carries the size of the upright picture in its first line.
  const y4m = execFileSync(
    makers.ffmpeg.path,
    [
      '-v',
      'error',
      '-nostdin',
      '-i',
      path,
      ...makers.everyFrame,
      '-pix_fmt',
      'yuv420p',
      '-f',
      'yuv4mpegpipe',
      '-',
    ],
    { maxBuffer: 1 << 28 },
  )
  const firstLine = y4m.subarray(0, y4m.indexOf(10)).toString()
  const [widthPx, heightPx] = ['W', 'H'].map(letter =>
    Number(new RegExp(` ${letter}(\\d+)`).exec(firstLine)![1]),
  )
  const pictureBytes = (widthPx! * heightPx! * 3) / 2
  const hashes: string[] = []
  for (let at = firstLine.length + 1; at < y4m.length; at += 6 + pictureBytes)
    hashes.push(hashOf(y4m.subarray(at + 6, at + 6 + pictureBytes)))
  const whole = {
    hashes,
    widthPx: widthPx!,
    heightPx: heightPx!,
    timesSeconds: frames.map((f: { best_effort_timestamp: number }) => (f.best_effort_timestamp * num) / den),
  }
  decoded.set(path, whole)
  return whole
}

export const hashOf = (bytes: Uint8Array): string => createHash('sha256').update(bytes).digest('hex')
