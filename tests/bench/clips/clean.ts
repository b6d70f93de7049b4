import { turned } from '../../electron/media/clips.ts'
import { type Coder, changed, ffmpegCoder, miniH264, muxedByOther, x264, x265, x265Words } from './coders.ts'
import { type FilmedScene, usualScene } from './filmed-scene.ts'

/** A clip as a camera might have written it, and the findings that are true of it. */
export type CleanClip = { name: string; scene: FilmedScene; coder: Coder; expected: string[] }

const rounded = ['rounded-timestamps']
const clip = (
  name: string,
  coder: Coder,
  scene: Partial<FilmedScene> = {},
  expected: string[] = [],
): CleanClip => ({
  name,
  coder,
  scene: { ...usualScene, seed: name.length, ...scene },
  expected,
})
/** Where there is a second ffmpeg, with other versions of the coders. */
const system = { program: 'ffmpeg' }

export const cleanClips: CleanClip[] = [
  clip('h264-plain.mp4', x264('-crf', '20')),
  clip('h264-fast-decode.mov', x264('-crf', '23', '-tune', 'fastdecode'), { noise: 3 }),
  clip('h264-long-groups.mp4', x264('-crf', '22', '-g', '250', '-bf', '8'), { shakePx: 0.5 }),
  clip('h264-keys-only.mov', x264('-crf', '20', '-g', '1'), { noise: 1 }),
  clip('h264-bit-rate.mp4', x264('-b:v', '12M'), { paddle: true }),
  clip('h264-fragments.mp4', x264('-crf', '20', '-movflags', 'frag_keyframe+empty_moov')),
  clip('h264-stream.ts', x264('-crf', '20')),
  clip('h264-matroska.mkv', x264('-crf', '21'), {}, rounded),
  // This muxer counts its edit list in milliseconds, and cuts the last frame off by it.
  clip('h264-1000-fps.mp4', x264('-crf', '20'), { fps: 1000, speed: 12, turns: 45 }, ['edit-list']),
  clip('h264-480-fps.mp4', x264('-crf', '20'), { fps: 480, widthPx: 640, heightPx: 360, speed: 6 }),
  clip('h264-120-fps.mp4', x264('-crf', '20'), {
    fps: 120,
    widthPx: 848,
    heightPx: 480,
    speed: 3,
    turns: 14,
  }),
  clip('h264-100-fps.mp4', x264('-crf', '20'), { fps: 100, speed: 3, turns: 12, light: 0.5 }),
  clip('h264-60-fps.mp4', x264('-crf', '20'), { fps: 60, speed: 1, turns: 6 }),
  clip('h264-upright.mp4', x264('-crf', '20'), { widthPx: 360, heightPx: 640, ballRadius: 0.06 }),
  clip('h264-720.mp4', x264('-crf', '22'), { widthPx: 1280, heightPx: 720, frames: 24 }),
  clip('h264-slow-ball.mp4', x264('-crf', '20'), { speed: 0.3, turns: 3 }),
  clip('h264-near-ball.mp4', x264('-crf', '20'), { ballRadius: 0.35, speed: 5 }),
  clip('h264-far-ball.mp4', x264('-crf', '20'), { ballRadius: 0.035, speed: 3 }),
  clip('h264-dim.mp4', x264('-crf', '20'), { light: 0.2, noise: 4 }),
  clip('h264-no-noise.mp4', x264('-crf', '18'), { noise: 0, shakePx: 0 }),
  clip('h264-bare-wall.mp4', x264('-crf', '20'), { texture: 2, noise: 1 }),
  clip('h264-strong-texture.mp4', x264('-crf', '20'), { texture: 60, shakePx: 0.4 }),
  clip('h264-other-build.mp4', ffmpegCoder(['-c:v', 'libx264', '-preset', 'medium', '-crf', '21'], system)),
  clip('h264-other-coder-fine.mp4', miniH264(22)),
  clip('h264-other-coder.mp4', miniH264(28), { noise: 1, shakePx: 0.3 }),
  clip('h264-other-muxer.mov', muxedByOther(x264('-crf', '20'))),
  clip('h264-other-muxer.mp4', muxedByOther(x264('-crf', '20', '-bf', '0')), {
    fps: 120,
    speed: 3,
    turns: 14,
  }),
  clip('h264-turned.mp4', changed(x264('-crf', '20'), turned(90)), { seed: 1 }, ['rotated']),
  clip('hevc-plain.mp4', x265('-crf', '22')),
  clip('hevc-fine.mov', x265('-crf', '18'), { noise: 3 }),
  clip('hevc-coarse.mp4', x265('-crf', '27'), { noise: 1 }),
  clip('hevc-matroska.mkv', x265('-crf', '22'), {}, rounded),
  clip('hevc-480-fps.mp4', x265('-crf', '22'), { fps: 480, speed: 7, turns: 40 }),
  clip('hevc-120-fps.mov', x265('-crf', '22'), { fps: 120, speed: 3, turns: 14, paddle: true }),
  clip('hevc-trembling.mp4', x265('-crf', '22'), { shakePx: 0.5, texture: 45 }),
  clip('hevc-dim.mp4', x265('-crf', '22'), { light: 0.25, noise: 3 }),
  clip('hevc-720.mp4', x265('-crf', '24'), { widthPx: 1280, heightPx: 720, frames: 24 }),
  clip('hevc-other-build.mp4', ffmpegCoder([...x265Words, '-crf', '22', '-tag:v', 'hvc1'], system)),
  clip('hevc-other-muxer.mp4', muxedByOther(x265('-crf', '22'))),
  clip('hevc-other-muxer.mkv', muxedByOther(x265('-crf', '22')), { frames: 72 }, rounded),
  clip('mpeg4.mov', ffmpegCoder(['-c:v', 'mpeg4', '-q:v', '4']), {}),
  clip(
    'vp9.webm',
    ffmpegCoder(['-c:v', 'libvpx-vp9', '-crf', '24', '-b:v', '0', '-deadline', 'realtime', '-cpu-used', '8']),
    { widthPx: 640, heightPx: 360 },
    rounded,
  ),
  clip(
    'vp8.webm',
    ffmpegCoder(['-c:v', 'libvpx', '-b:v', '8M', '-deadline', 'realtime', '-cpu-used', '8']),
    {},
    rounded,
  ),
]

/** Sample clips that are as filmed, and phone-240, whose times are rounded. */
export const cleanSamples: Record<string, string[]> = {
  'backspin-120.mp4': [],
  'contact-240.mp4': [],
  'fast-240-a.mp4': [],
  'fast-240-b.mp4': [],
  'phone-240.mov': rounded,
  'rolling-240.mp4': [],
  'smear-240.mp4': [],
  'tilted-240.mp4': [],
  'topspin-240-a.mp4': [],
  'topspin-240-b.mp4': [],
  'topspin-240-c.mp4': [],
}
