import { spawn } from 'node:child_process'
import { createRequire } from 'node:module'
import type { Scene } from './scene.ts'

export function ffmpegPath(): string {
  try {
    return createRequire(import.meta.url)('@ffmpeg-installer/ffmpeg').path
  } catch {
    return 'ffmpeg'
  }
}

/** Frame n of the file belongs to capture frame n + (how many were dropped before it). */
function gapFilter(dropped: readonly number[], playbackFps: number): string[] {
  if (dropped.length === 0) return []
  const shifts = [...dropped].sort((a, b) => a - b).map((capture, i) => `gte(N,${capture - i})`)
  return ['-vf', `setpts='(N+${shifts.join('+')})/(${playbackFps}*TB)'`]
}

function codecArguments({ encoding }: Scene): string[] {
  const quality = [
    '-preset',
    'medium',
    '-crf',
    String(encoding.crf),
    '-g',
    '48',
    '-bf',
    String(encoding.bFrames),
  ]
  if (encoding.codec === 'h264') return ['-c:v', 'libx264', ...quality, '-threads', '1']
  return [
    '-c:v',
    'libx265',
    ...quality,
    '-tag:v',
    'hvc1',
    '-x265-params',
    `log-level=error:pools=1:frame-threads=1:bframes=${encoding.bFrames}`,
  ]
}

/** Writes frames (yuv420p bytes) as a clip at `path`; times are the capture's, in ticks of the container. */
export async function encode(scene: Scene, frames: Iterable<Uint8Array>, path: string): Promise<void> {
  const { camera, encoding } = scene
  const ffmpeg = spawn(
    ffmpegPath(),
    [
      ...['-hide_banner', '-loglevel', 'error', '-f', 'rawvideo', '-pix_fmt', 'yuv420p'],
      ...['-video_size', `${camera.widthPx}x${camera.heightPx}`, '-framerate', String(encoding.playbackFps)],
      ...['-i', 'pipe:0', ...gapFilter(camera.dropped, encoding.playbackFps), '-vsync', 'passthrough'],
      ...codecArguments(scene),
      ...['-pix_fmt', 'yuv420p', '-color_primaries', 'bt709', '-color_trc', 'bt709', '-colorspace', 'bt709'],
      ...['-color_range', 'tv', '-video_track_timescale', String(encoding.timescale)],
      ...['-movflags', '+faststart', '-fflags', '+bitexact', '-flags:v', '+bitexact', '-y', path],
    ],
    { stdio: ['pipe', 'ignore', 'pipe'] },
  )
  let complaint = ''
  ffmpeg.stderr.on('data', chunk => {
    complaint += chunk
  })
  const ended = new Promise<void>((resolve, reject) => {
    ffmpeg.on('error', reject)
    ffmpeg.on('close', code => (code === 0 ? resolve() : reject(new Error(`ffmpeg: ${complaint.trim()}`))))
  })
  // A pipe that breaks is told by the exit code and its complaint.
  ffmpeg.stdin.on('error', () => {})
  for (const frame of frames) {
    if (!ffmpeg.stdin.write(frame)) {
      await Promise.race([new Promise(resolve => ffmpeg.stdin.once('drain', resolve)), ended])
    }
  }
  ffmpeg.stdin.end()
  await ended
}
