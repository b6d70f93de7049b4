import { once } from 'node:events'
import { mkdtempSync, readFileSync, rmSync } from 'node:fs'
import { tmpdir } from 'node:os'
import { join } from 'node:path'
import { WhorlError } from '../../core/contract/problem.ts'
import type { ClipOrder } from '../../core/contract/publish.ts'
import { Children } from '../media/children.ts'
import type { Canvas } from './i420-canvas.ts'

export type Film = { widthPx: number; heightPx: number; fps: number; format: ClipOrder['format'] }

const bt709 = [
  '-colorspace',
  'bt709',
  '-color_primaries',
  'bt709',
  '-color_trc',
  'bt709',
  '-color_range',
  'tv',
]

/** MP4 that plays everywhere and starts at once; GIF with colours of its own; WebP, smaller and finer than GIF. */
const encoders: Record<ClipOrder['format'], readonly string[]> = {
  mp4: [
    '-c:v',
    'libx264',
    '-preset',
    'medium',
    '-crf',
    '18',
    '-pix_fmt',
    'yuv420p',
    ...bt709,
    '-movflags',
    '+faststart',
  ],
  gif: [
    '-filter_complex',
    '[0:v]split[a][b];[a]palettegen=stats_mode=diff[p];[b][p]paletteuse=dither=bayer:bayer_scale=4',
    '-loop',
    '0',
  ],
  webp: ['-c:v', 'libwebp_anim', '-pix_fmt', 'yuv420p', '-quality', '80', '-loop', '0'],
}

/**
 * Encodes pictures as they come through a pipe: nobody holds the whole clip. Stops and leaves nothing behind
 * on abort (`cancelled`). Throws `clip-not-written` with what the encoder said.
 */
export async function encode(
  ffmpeg: string,
  film: Film,
  pictures: AsyncIterable<Canvas>,
  signal: AbortSignal,
): Promise<Buffer> {
  const folder = mkdtempSync(join(tmpdir(), 'whorl-clip-'))
  const children = new Children()
  try {
    const path = join(folder, `clip.${film.format}`)
    const args = [
      ...['-hide_banner', '-loglevel', 'error', '-f', 'rawvideo', '-pix_fmt', 'yuv420p'],
      ...['-s', `${film.widthPx}x${film.heightPx}`, '-r', String(film.fps), '-i', 'pipe:0', '-an'],
      ...encoders[film.format],
      ...['-map_metadata', '-1', '-fflags', '+bitexact', '-flags:v', '+bitexact', path],
    ]
    const running = children.start(ffmpeg, args, { signal, stdio: ['pipe', 'ignore', 'pipe'] })
    const pipe = running.child.stdin!
    let broken = false
    pipe.on('error', () => {
      broken = true
    })
    for await (const { data } of pictures) {
      if (signal.aborted || broken) break
      if (!pipe.write(data)) await Promise.race([once(pipe, 'drain').catch(() => {}), running.ended])
    }
    pipe.end()
    const { ok, complaint } = await running.ended
    if (signal.aborted) throw new WhorlError('cancelled', { what: 'Encoding the clip' })
    if (!ok) throw new WhorlError('clip-not-written', { what: complaint || 'the encoder stopped' })
    return readFileSync(path)
  } finally {
    await children.close()
    rmSync(folder, { recursive: true, force: true })
  }
}
