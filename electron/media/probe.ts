import type { Clip } from '../../core/contract/clip.ts'
import { stretchesOf } from '../../core/timing/ramp.ts'
import { timestampPattern } from '../../core/timing/timestamp-pattern.ts'
import { capturedFpsIn, capturedFpsInXml, captureRate } from './capture-rate.ts'
import type { Children } from './children.ts'
import { type ClipIndex, secondsOf } from './clip-index.ts'
import { placer } from './decode.ts'
import type { ProbeOptions } from './media.ts'
import type { Tools } from './programs.ts'
import { repeatsIn } from './repeats.ts'
import { type Scan, scan } from './scan.ts'
import { sha256Of } from './sha256.ts'
import { warningsFor } from './warnings.ts'

/** All of `whorl.clip/1`: reads the whole file once, and decodes every frame once. */
export async function probeClip(
  children: Children,
  tools: Tools,
  index: ClipIndex,
  options: ProbeOptions,
): Promise<Clip> {
  const { file, header } = index
  // Either half stops the other when it fails, so that nothing goes on for a probe that is over.
  const controller = new AbortController()
  const signal = AbortSignal.any([controller.signal, ...(options.signal ? [options.signal] : [])])
  const [sha256, seen, xmlFps] = await Promise.all([
    options.sha256 ?? sha256Of(file, { signal }),
    scan(children, tools, index, { signal, progress: options.progress }),
    capturedFpsInXml(file.path, file.bytes),
  ]).catch(error => {
    controller.abort()
    throw error
  })

  const place = placer(index.pts, { fromFrame: 0, toFrame: index.pts.length - 1 })
  const frameOf = seen.pts.map(place)
  const times = secondsOf(index)
  const timeBaseSeconds = header.timeBase.num / header.timeBase.den
  const { tickSeconds, fps: playbackFps, even, gaps } = timestampPattern(times, timeBaseSeconds)
  const stretches = stretchesOf(times, tickSeconds ?? timeBaseSeconds)
  const repeats = repeatsIn(seen.looks.changes).flatMap(i => frameOf[i] ?? [])
  const capture = captureRate({
    userFps: options.captureFps,
    metadataFps: capturedFpsIn(header.tags) ?? xmlFps,
    playbackFps,
    repeatedShare: repeats.length / seen.pts.length,
  })
  const found = {
    frames: seen.pts.length,
    playbackFps,
    timestamps: { tickSeconds, even, gaps, repeats },
    capture,
  }
  return {
    schema: 'whorl.clip/1',
    path: file.path,
    sha256,
    bytes: file.bytes,
    container: header.container,
    codec: header.codec,
    pixelFormat: header.pixelFormat,
    widthPx: header.widthPx,
    heightPx: header.heightPx,
    rotationDeg: header.rotationDeg,
    durationSeconds:
      times.at(-1)! - times[0]! + (playbackFps ? 1 / playbackFps : (header.claimedSeconds ?? 0)),
    ...found,
    warnings: warningsFor({
      ...found,
      ...lossesOf(index, seen),
      ...header,
      hiddenFrames: index.hidden,
      stretches,
      mixedFrames: seen.looks.mixed.flatMap(i => frameOf[i] ?? []),
      bitsPerMovedPixel: bitsPerMovedPixel(index, seen),
      flicker: seen.looks.flicker,
      viewMoved: seen.looks.viewMoved,
    }),
  }
}

/** A picture's own header and the list of its blocks that stay cost about this much: found by trying, H.264 and HEVC. */
const bareBytes = 32

/** What the coder spent on each pixel that moved, key pictures left out; infinite where nothing moves. */
function bitsPerMovedPixel({ leaning, header }: ClipIndex, { looks }: Scan): number {
  const pixels = leaning.pictures * header.widthPx * header.heightPx
  return leaning.pictures === 0
    ? Number.POSITIVE_INFINITY
    : (8 * Math.max(leaning.bytes - bareBytes * leaning.pictures, 0)) / (pixels * looks.movedPart)
}

/** As many pictures as a coder may hold back to put them in order (H.264, A.3; HEVC, A.4): 16. */
const reordered = 16

/** What the file promises and does not hold: behind its end, or in its midst. */
function lossesOf(index: ClipIndex, seen: Scan) {
  const decoded = new Set(seen.pts)
  const unseen = index.pts.flatMap((pts, frame) => (decoded.has(pts) ? [] : [frame]))
  // Where a file is cut off, pictures lean on others behind the cut, and some before it cannot be seen.
  const atEnd = unseen.filter(frame => frame >= index.pts.length - reordered).length
  const unlisted = Math.max(0, (index.header.claimedFrames ?? 0) - index.packets)
  const complaints = `${index.complaint} ${seen.complaint}`
  return {
    expectedFrames: index.pts.length + unlisted,
    damagedFrames: unseen.length - atEnd,
    cutOff: unlisted > 0 || atEnd > 0 || /partial file|ended prematurely|truncated/i.test(complaints),
  }
}
