import type { Clip, Warning } from '../../core/contract/clip.ts'
import { frameTimes } from '../../core/timing/frame-times.ts'
import type { Stretch } from '../../core/timing/ramp.ts'
import { effects, type FindingCode } from './effects.ts'
import type { Header } from './header.ts'

export type Findings = Pick<Clip, 'frames' | 'playbackFps' | 'timestamps' | 'capture'> &
  Pick<Header, 'rotationDeg' | 'squareStored' | 'interlaced'> & {
    /** Frames the file should hold: by its header, by its list of pictures. */
    expectedFrames: number
    /** Pictures in the midst of the clip that cannot be decoded. */
    damagedFrames: number
    cutOff: boolean
    /** Pictures that an edit list cuts away. */
    hiddenFrames: number
    stretches: Stretch[]
    mixedFrames: number[]
    bitsPerMovedPixel: number
    /** Share by which the light changes from picture to picture. */
    flicker: number
    /** How far the view moved within a few frames, as a part of the picture's width. */
    viewMoved: number
  }

/** With more repeats than this, a clip's rate is made up. */
const mostRepeated = 1 / 5
/** A lamp that changes the light by less from frame to frame is not to be seen: common practice, no source. */
const leastFlicker = 0.006
/** A view that moves by less in a few frames stands on a stand that was touched. */
const leastMoved = 1 / 200
/** Coders that spent less on a pixel that moved have wiped out what is fine: found by trying, H.264 and HEVC. */
const leastBits = 0.1
/** A tick shows when it is so long a part of a frame. */
const leastTick = 0.02
const wholeTicks = 0.01

/** What a person should know about a clip before trusting a figure from it, in plain words, with what to do. */
export function warningsFor(found: Findings): Warning[] {
  const { gaps, repeats } = found.timestamps
  const missing = gaps.reduce((sum, gap) => sum + gap.missing, 0)
  const ramps = found.stretches.length > 1
  return [
    ...retimed(found),
    ...when('capture-rate-unknown', found.capture.fps === null, unknownRate(found.playbackFps)),
    ...when('ramp', ramps, `The speed changes on the way: ${found.stretches.map(stretchText).join(', ')}.`),
    ...when(
      'dropped-frames',
      missing > 0 && !ramps,
      `${frames(missing)} missing, the first after frame ${gaps[0]?.afterFrame}; the times of the others are kept.`,
    ),
    ...when(
      repeats.length > mostRepeated * found.frames ? 'mostly-repeated' : 'repeated-frames',
      repeats.length > 0,
      `${frames(repeats.length)} only repeating the picture before, the first at ${repeats[0]}; they carry no new time.`,
    ),
    ...when(
      'mixed-frames',
      found.mixedFrames.length > 0,
      `${frames(found.mixedFrames.length)} mixed from the pictures before and after, the first at ${found.mixedFrames[0]}: a conversion made them up.`,
    ),
    ...times(found, ramps),
    ...lookFindings(found),
    ...when(
      'edit-list',
      found.hiddenFrames > 0,
      `${frames(found.hiddenFrames)} in the file but hidden by its edit list.`,
    ),
    ...when(
      'truncated',
      found.cutOff,
      `The file is cut off: ${found.frames} of ${Math.max(found.frames, found.expectedFrames)} frames can be seen.`,
    ),
    ...when(
      'damaged-frames',
      found.damagedFrames > 0,
      `${frames(found.damagedFrames)} damaged in the midst of the clip and cannot be seen.`,
    ),
  ]
}

const when = (code: FindingCode, holds: boolean, message: string): Warning[] =>
  holds ? [{ code, message, ...effects[code] }] : []

const frames = (n: number) => (n === 1 ? '1 frame is' : `${n} frames are`)

const rounded = (n: number) => String(Number(n.toFixed(2)))

const stretchText = ({ fromFrame, toFrame, fps }: Stretch) =>
  `frames ${fromFrame}–${toFrame} at ${fps.toFixed(0)} fps`

function times({ timestamps: { even, tickSeconds }, playbackFps }: Findings, ramps: boolean): Warning[] {
  const ticks =
    tickSeconds !== null && playbackFps !== null ? 1 / (tickSeconds * playbackFps) : Number.POSITIVE_INFINITY
  // A frame of whole ticks is not rounded at all.
  const shows = ticks < 1 / leastTick && Math.abs(ticks - Math.round(ticks)) > wholeTicks
  const tick = `Frame times are rounded to ${((tickSeconds ?? 0) * 1000).toFixed(2)} ms`
  return [
    ...when(
      'uneven-timestamps',
      !even && !ramps,
      'The frames come at uneven times; each is used at its own time, so check that the camera wrote this file itself.',
    ),
    ...when('rounded-timestamps', shows && even, `${tick}; the even clock behind them is used.`),
    ...when('uneven-rounded-timestamps', shows && !even && !ramps, `${tick}, and no even clock fits them.`),
  ]
}

function lookFindings(found: Findings): Warning[] {
  return [
    ...when(
      'rotated',
      found.rotationDeg !== 0,
      `Filmed upright or upside down: shown turned by ${found.rotationDeg}°.`,
    ),
    ...when(
      'non-square-pixels',
      !found.squareStored,
      'The pixels are not square; the picture is shown as if they were.',
    ),
    ...when(
      'interlaced',
      found.interlaced,
      'The pictures are interlaced: odd and even rows were seen at different times.',
    ),
    ...when(
      'flicker',
      found.flicker > leastFlicker,
      `The light changes by ${(100 * found.flicker).toFixed(1)} % from frame to frame: a lamp flickers.`,
    ),
    ...when(
      'strong-compression',
      found.bitsPerMovedPixel < leastBits,
      `The coder spent ${found.bitsPerMovedPixel.toFixed(2)} bit on each pixel that moves: fine marks drown.`,
    ),
    ...when(
      'moving-view',
      found.viewMoved > leastMoved,
      `The whole view moves, by ${(100 * found.viewMoved).toFixed(1)} % of its width within a few frames: a hand-held or stabilised camera.`,
    ),
  ]
}

function retimed({ playbackFps, capture }: Findings): Warning[] {
  if (playbackFps === null || capture.fps === null) return []
  // Whoever turns container times into real ones decides what counts as retimed; this asks there.
  const second = frameTimes({
    timestampsSeconds: [1],
    playbackFps,
    captureFps: capture.fps,
    trusted: true,
  })[0]
  const speed = capture.fps / playbackFps
  const how = speed > 1 ? `${rounded(speed)} times slower` : `${rounded(1 / speed)} times faster`
  const message = `Filmed at ${rounded(capture.fps)} fps, plays at ${rounded(playbackFps)}: ${how} than it happened. Times are corrected.`
  return when('retimed', second !== 1, message)
}

function unknownRate(playbackFps: number | null): string {
  const plays =
    playbackFps === null ? '' : ` It plays at ${rounded(playbackFps)} fps, which may be slow motion.`
  return `The file does not tell how fast the camera filmed.${plays} Say what the camera was set to.`
}
