import type { ChildProcess } from 'node:child_process'
import { Writable } from 'node:stream'
import ffmpeg, { type FfmpegCommand } from 'fluent-ffmpeg'
import { WhorlError } from '../../core/contract/problem.ts'
import { type Children, env, type Running, type StartOptions } from './children.ts'
import type { ClipIndex } from './clip-index.ts'
import { ClipLook, type Looks } from './clip-look.ts'
import type { Size } from './filters.ts'
import { inputName, openArguments } from './guard.ts'
import { labelFilter, labelOf, quietly } from './labels.ts'
import type { JobOptions } from './media.ts'
import type { Tools } from './programs.ts'
import { maxSilentSeconds, watchSilence } from './silence.ts'
import { throttled } from './throttled.ts'

/** What decoding every frame once showed: the pictures' times in ticks, and what is to be seen in them. */
export type Scan = { pts: number[]; looks: Looks; complaint: string }

/** Inside fluent-ffmpeg: starts the program; the types leave it out. */
type Spawn = (this: FfmpegCommand, words: string[], options: object, ...rest: unknown[]) => void
const spawnByFluent = (ffmpeg.prototype as { _spawnFfmpeg: Spawn })._spawnFfmpeg

const sampleWidthPx = 256

/**
 * Decodes the whole clip, at low priority, to count its pictures and to see how much each differs.
 * Throws clip-no-frames, or ffmpeg-failed when ffmpeg itself did.
 */
export async function scan(
  children: Children,
  tools: Tools,
  index: ClipIndex,
  { signal, progress }: JobOptions = {},
): Promise<Scan> {
  const report = throttled(progress)
  const total = index.pts.length
  const size = sampleSize(index)
  const pts: number[] = []
  const clipLook = new ClipLook(size.widthPx)
  const look = (picture: Uint8Array) => {
    clipLook.see(picture)
    silence.heard()
    report({ what: 'Looking at every frame', done: Math.min(clipLook.seen, total), total })
  }
  const onLine = (line: string) => {
    const label = labelOf(line)
    if (label !== null) pts.push(label)
    return label !== null
  }
  const silent = new AbortController()
  const silence = watchSilence(() => silent.abort())
  const stop = AbortSignal.any([silent.signal, ...(signal ? [signal] : [])])
  const { ok, complaint } = await runFluent(children, tools, index, size, look, { signal: stop, onLine })
    .then(running => running.ended)
    .finally(silence.end)
  children.check(signal, 'Looking at every frame')
  if (silent.signal.aborted)
    throw nothingSeen(index.file.path, `it gave no picture for ${maxSilentSeconds} s`)
  if (clipLook.seen === 0) throw nothingSeen(index.file.path, ok ? '' : complaint)
  return { pts: pts.slice(0, clipLook.seen), looks: clipLook.looks(), complaint }
}

const nothingSeen = (path: string, what: string) =>
  what === '' ? new WhorlError('clip-no-frames', { path }) : new WhorlError('ffmpeg-failed', { path, what })

/**
 * Of the picture as it is stored: it is not turned. Single pixels are picked, not averaged: that is cheap, and leaves
 * the noise that repeats are judged by.
 */
function sampleSize({ header }: ClipIndex): Size {
  const isUpright = header.rotationDeg % 180 === 0
  const [across, down] = isUpright ? [header.widthPx, header.heightPx] : [header.heightPx, header.widthPx]
  const widthPx = Math.min(sampleWidthPx, across)
  return { widthPx, heightPx: Math.max(1, Math.round((down * widthPx) / across)) }
}

/**
 * The one job that fluent-ffmpeg does for us: it builds and starts a long run at low priority (through `nice`),
 * so that looking at frames stays quick meanwhile. Elsewhere it would be in the way: it cannot list packets,
 * cannot be given a socket to write into nor an environment, and cannot be stopped before it has started. What it gets wrong is
 * kept off: its caches and its reading of format lists are replaced by our answers, and its handler for a
 * program that cannot be started, which crashes the process, by ours.
 */
function runFluent(
  children: Children,
  tools: Tools,
  index: ClipIndex,
  { widthPx, heightPx }: Size,
  look: (picture: Uint8Array) => void,
  options: StartOptions,
): Promise<Running> {
  const { file, header } = index
  const filters = [labelFilter, `scale=${widthPx}:${heightPx}:flags=neighbor`, 'format=gray']
  const command = ffmpeg({ niceness: 5, stdoutLines: 1 })
    .input(inputName(file))
    .inputOptions(...quietly, '-noautorotate', ...openArguments(file))
    .outputOptions(
      '-map',
      `0:${header.stream}`,
      '-vf',
      filters.join(','),
      ...tools.everyFrame,
      '-f',
      'rawvideo',
    )
    .output(cutInto(widthPx * heightPx, look))
  Object.assign(command, {
    _getFfmpegPath: (done: (error: null, path: string) => void) => done(null, tools.ffmpeg.path),
    availableFormats: (done: (error: null, formats: object) => void) =>
      done(null, { rawvideo: { canMux: true }, [file.demuxer]: { canDemux: true } }),
    _spawnFfmpeg: (words: string[], options: object, ...rest: unknown[]) =>
      spawnByFluent.call(command, words, { ...options, env }, ...rest),
    availableEncoders: (done: (error: null, encoders: object) => void) => done(null, {}),
  })
  return new Promise((resolve, reject) => {
    command
      .on('start', () => {
        const child = (command as FfmpegCommand & { ffmpegProc: ChildProcess }).ffmpegProc
        child.removeAllListeners('error')
        resolve(children.adopt(child, options))
      })
      .on('error', reject)
      .run()
  })
}

/** Takes a stream of bytes and calls back with each whole picture. */
function cutInto(pictureBytes: number, look: (picture: Uint8Array) => void): Writable {
  let picture = new Uint8Array(pictureBytes)
  let filled = 0
  return new Writable({
    write(bytes: Buffer, _encoding, done) {
      for (let at = 0; at < bytes.length; ) {
        const piece = bytes.subarray(at, at + pictureBytes - filled)
        picture.set(piece, filled)
        at += piece.length
        filled += piece.length
        if (filled < pictureBytes) continue
        look(picture)
        picture = new Uint8Array(pictureBytes)
        filled = 0
      }
      done()
    },
  })
}
