import { execFileSync } from 'node:child_process'
import { closeSync, openSync, readFileSync, rmSync, writeFileSync, writeSync } from 'node:fs'
import { createRequire } from 'node:module'
import {
  ALL_FORMATS,
  BufferSource,
  BufferTarget,
  EncodedPacketSink,
  EncodedVideoPacketSource,
  Input,
  MkvOutputFormat,
  MovOutputFormat,
  Mp4OutputFormat,
  Output,
} from 'mediabunny'
import { makers } from '../../electron/media/builds.ts'
import { type FilmedScene, picturesOf } from './filmed-scene.ts'

/** Writes a scene into a file; the name's ending says which container. */
export type Coder = (scene: FilmedScene, path: string) => void | Promise<void>

/** A coder and a muxer of an ffmpeg, that of the registry unless another program is named. */
export const ffmpegCoder =
  (words: string[], { program = makers.ffmpeg.path, before = [] as string[] } = {}): Coder =>
  (scene, path) => {
    const { widthPx, heightPx, fps } = scene
    const raw = `${path}.gray`
    const file = openSync(raw, 'w')
    for (const picture of picturesOf(scene)) writeSync(file, picture)
    closeSync(file)
    const size = ['-s', `${widthPx}x${heightPx}`, '-r', String(fps)]
    const input = ['-f', 'rawvideo', '-pix_fmt', 'gray', ...size, ...before, '-i', raw]
    const output = ['-pix_fmt', 'yuv420p', ...words, ...makers.everyFrame, path]
    execFileSync(program, ['-v', 'error', '-nostdin', '-y', ...input, ...output])
    rmSync(raw)
  }

export const x264 = (...words: string[]) => ffmpegCoder(['-c:v', 'libx264', '-preset', 'veryfast', ...words])
export const x265Words = ['-c:v', 'libx265', '-preset', 'ultrafast', '-x265-params', 'log-level=error']
export const x265 = (...words: string[]) => ffmpegCoder([...x265Words, '-tag:v', 'hvc1', ...words])

/** What this file uses of the package, which brings types for the browser alone. */
type MiniEncoder = {
  width: number
  height: number
  frameRate: number
  quantizationParameter: number
  groupOfPictures: number
  outputFilename: string
  initialize(): void
  addFrameYuv(bytes: Uint8Array): void
  finalize(): void
  delete(): void
  FS: { readFile(name: string): Uint8Array }
}

/** H.264 in MP4 by minih264 and libmp4v2, which share nothing with ffmpeg. Sizes in sixteens. */
export const miniH264 =
  (quantiser: number): Coder =>
  async (scene, path) => {
    const { createH264MP4Encoder } = createRequire(import.meta.url)('h264-mp4-encoder') as {
      createH264MP4Encoder(): Promise<MiniEncoder>
    }
    const encoder = await createH264MP4Encoder()
    encoder.width = scene.widthPx
    encoder.height = scene.heightPx
    encoder.frameRate = scene.fps
    encoder.quantizationParameter = quantiser
    encoder.groupOfPictures = 30
    encoder.initialize()
    const yuv = new Uint8Array((scene.widthPx * scene.heightPx * 3) / 2).fill(128)
    for (const picture of picturesOf(scene)) {
      yuv.set(picture)
      encoder.addFrameYuv(yuv)
    }
    encoder.finalize()
    writeFileSync(path, encoder.FS.readFile(encoder.outputFilename))
    encoder.delete()
  }

/** The same packets in a container that mediabunny wrote, by the name's ending. */
export const muxedByOther =
  (coder: Coder): Coder =>
  async (scene, path) => {
    const first = `${path}.first.mp4`
    await coder(scene, first)
    const input = new Input({ formats: ALL_FORMATS, source: new BufferSource(readFileSync(first)) })
    const track = (await input.getPrimaryVideoTrack())!
    const ending = path.split('.').at(-1)
    const format =
      ending === 'mkv'
        ? new MkvOutputFormat()
        : ending === 'mov'
          ? new MovOutputFormat()
          : new Mp4OutputFormat()
    const target = new BufferTarget()
    const output = new Output({ format, target })
    const source = new EncodedVideoPacketSource(track.codec!)
    output.addVideoTrack(source)
    await output.start()
    const decoderConfig = (await track.getDecoderConfig()) ?? undefined
    for await (const packet of new EncodedPacketSink(track).packets())
      await source.add(packet, { decoderConfig })
    await output.finalize()
    writeFileSync(path, new Uint8Array(target.buffer!))
    rmSync(first)
  }

/** The same clip with its bytes changed. */
export const changed =
  (coder: Coder, change: (bytes: Buffer) => Buffer): Coder =>
  async (scene, path) => {
    await coder(scene, path)
    writeFileSync(path, change(readFileSync(path)))
  }
