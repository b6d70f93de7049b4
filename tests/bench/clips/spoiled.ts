import { execFileSync } from 'node:child_process'
import { rmSync, statSync, truncateSync } from 'node:fs'
import { makers } from '../../electron/media/builds.ts'
import { turned } from '../../electron/media/clips.ts'
import { type Coder, changed, x264, x265 } from './coders.ts'
import { type FilmedScene, usualScene } from './filmed-scene.ts'

/** A clip with one thing built into it: the finding's code, and words that its message must hold. */
export type SpoiledClip = {
  name: string
  scene: FilmedScene
  coder: Coder
  finds: string
  words?: string
  /** What a person says of the rate. */
  captureFps?: number
}

const spoiled = (
  name: string,
  finds: string,
  coder: Coder,
  { scene = {}, ...more }: { scene?: Partial<FilmedScene>; words?: string; captureFps?: number } = {},
): SpoiledClip => ({ name, finds, coder, scene: { ...usualScene, ...scene }, ...more })

type Codec = (...words: string[]) => Coder
const h264: Codec = (...words) => x264('-crf', '20', ...words)
const hevc: Codec = (...words) => x265('-crf', '22', ...words)

/** Filmed and coded plainly, then through an ffmpeg with these words. */
const again =
  (words: string[], before: string[] = []): Coder =>
  async (scene, path) => {
    const first = `${path}.first.mp4`
    await x264('-crf', '16')(scene, first)
    execFileSync(makers.ffmpeg.path, ['-v', 'error', '-y', ...before, '-i', first, ...words, path])
    rmSync(first)
  }
const cut =
  (coder: Coder, share: number): Coder =>
  async (scene, path) => {
    await coder(scene, path)
    truncateSync(path, Math.floor(share * statSync(path).size))
  }

const filters: [name: string, finds: string, filter: string, more?: Parameters<typeof spoiled>[3]][] = [
  ['repeated-30', 'mostly-repeated', 'fps=30,fps=240'],
  ['repeated-60', 'mostly-repeated', 'fps=60,fps=240'],
  ['repeated-120', 'mostly-repeated', 'fps=120,fps=240'],
  ['blended-120', 'mixed-frames', 'fps=120,minterpolate=fps=240:mi_mode=blend'],
  ['blended-60', 'mixed-frames', 'fps=60,minterpolate=fps=240:mi_mode=blend'],
  ['interpolated-120', 'mixed-frames', 'fps=120,minterpolate=fps=240:mi_mode=mci:mc_mode=aobmc'],
  ['interpolated-60', 'mixed-frames', 'fps=60,minterpolate=fps=240:mi_mode=mci:mc_mode=aobmc'],
  ['dropped', 'dropped-frames', "select='not(between(n,20,22)+eq(n,36))'", { words: '4 frames' }],
  ['uneven', 'uneven-timestamps', "setpts='(N/240+0.0012*sin(N*N))/TB'"],
  [
    'ramp',
    'ramp',
    "setpts='if(lt(N,15),N/240,if(lt(N,32),15/240+(N-15)/30,15/240+17/30+(N-32)/240))/TB'",
    { words: 'frames 0–15 at 240 fps, frames 15–32 at 30 fps, frames 32–47 at 240 fps' },
  ],
  ['wide-pixels', 'non-square-pixels', 'setsar=4/3'],
  ['interlaced', 'interlaced', 'tinterlace=interleave_top,setfield=tff'],
  ['flicker-100', 'flicker', "geq=lum='lum(X,Y)*(1+0.03*sin(2*PI*100*N/240))':cb=128:cr=128"],
  ['flicker-120', 'flicker', "geq=lum='lum(X,Y)*(1+0.02*cos(2*PI*120*N/240))':cb=128:cr=128"],
  ['flicker-bands', 'flicker', "geq=lum='lum(X,Y)*(1+0.06*sin(2*PI*100*(N/240+0.0035*Y/H)))':cb=128:cr=128"],
  ['hand-held', 'moving-view', 'crop=430:240:25+12*sin(n/8):16+8*cos(n/6)'],
  ['stabilised', 'moving-view', 'crop=300:220:10+3*n:20'],
  [
    'stabilised-scaled',
    'moving-view',
    "zoompan=z='1.03+0.002*on':x='(iw-iw/zoom)/2':y='(ih-ih/zoom)/2':d=1:s=450x250:fps=240",
  ],
]
const uneven = ['-video_track_timescale', '48000']
const interlacedFlags = ['-flags', '+ilme+ildct']

export const spoiledClips: SpoiledClip[] = [
  ...filters.flatMap(([name, finds, filter, more]) =>
    (['h264', 'hevc'] as const)
      // Interlaced HEVC is a stream of fields, which nobody's camera writes.
      .filter(codec => codec === 'h264' || name !== 'interlaced')
      .map(codec => {
        const words = ['-vf', filter, ...(name === 'interlaced' ? interlacedFlags : uneven)]
        return spoiled(`${name}-${codec}.mp4`, finds, (codec === 'h264' ? h264 : hevc)(...words), more)
      }),
  ),
  spoiled('crushed-h264.mp4', 'strong-compression', x264('-crf', '46')),
  spoiled('crushed-hevc.mp4', 'strong-compression', x265('-crf', '46')),
  spoiled('messenger-h264.mp4', 'strong-compression', x264('-b:v', '150k')),
  spoiled('ticks-240.mov', 'rounded-timestamps', h264('-video_track_timescale', '600'), { words: '1.67 ms' }),
  spoiled('ticks-240.mkv', 'rounded-timestamps', h264(), { words: '1.00 ms' }),
  spoiled('edit-list.mp4', 'edit-list', again(['-c', 'copy'], ['-ss', '0.05']), { words: '12 frames' }),
  spoiled('turned-h264.mp4', 'rotated', changed(h264(), turned(90)), { words: '90°' }),
  spoiled('turned-hevc.mov', 'rotated', changed(hevc(), turned(180)), { words: '180°' }),
  spoiled('cut-off.mp4', 'truncated', cut(h264('-movflags', 'faststart'), 0.6)),
  // Rates that the file hides, tells in its own words, or that a person tells.
  spoiled('slow-motion.mp4', 'capture-rate-unknown', again(['-c', 'copy'], ['-itsscale', '8'])),
  spoiled('sixty.mp4', 'capture-rate-unknown', h264(), { scene: { fps: 60, speed: 1 } }),
  spoiled('slow-motion-told.mp4', 'retimed', again(['-c', 'copy'], ['-itsscale', '8']), {
    captureFps: 240,
    words: '8 times slower',
  }),
  ...[
    ['com.android.capture.fps', '240.000000'],
    ['com.example.captured-frame-rate', '240000/1001'],
    ['capture_fps', '240p'],
  ].map(([key, value], i) =>
    spoiled(
      `slow-motion-key-${i}.mp4`,
      'retimed',
      again(
        ['-c', 'copy', '-movflags', 'use_metadata_tags', '-metadata', `${key}=${value}`],
        ['-itsscale', '8'],
      ),
      { words: 'plays at 30' },
    ),
  ),
  spoiled(
    'slow-motion-stream-key.mkv',
    'retimed',
    again(['-c', 'copy', '-metadata:s:v:0', 'CAPTURE_FPS=240'], ['-itsscale', '8']),
    { words: 'plays at 30' },
  ),
  spoiled(
    'slow-motion-xml.mp4',
    'retimed',
    changed(again(['-c', 'copy'], ['-itsscale', '8']), bytes => {
      const text = '<VideoFrame videoCodec="x" captureFps="239.76p" formatFps="29.97p"/>'
      const box = Buffer.alloc(8 + text.length)
      box.writeUInt32BE(box.length)
      box.write(`free${text}`, 4, 'latin1')
      return Buffer.concat([bytes, box])
    }),
    { words: '239.76' },
  ),
]
