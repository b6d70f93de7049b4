import { open } from 'node:fs/promises'
import type { Clip } from '../../core/contract/clip.ts'

/**
 * Standard uncertainty of a rate that nobody calibrated, relative: cameras that say 240 film at 240 or at
 * 240·1000/1001, a difference of 0.1 %, taken as the half-width of a rectangle (JCGM 100:2008, 4.3.7). That
 * cameras keep to one of the two is common practice, no source.
 */
const nominalTolerance = 0.001 / Math.sqrt(3)

/** From here up, a file that plays this fast was filmed this fast: nobody exports slow motion to such a rate. */
const leastRealTimeFps = 100
/** With more repeated pictures than this, a playback rate was made up by a conversion. */
const mostRepeated = 1 / 5

export type CaptureEvidence = {
  userFps: number | null | undefined
  /** What the file says, see `capturedFpsIn`. */
  metadataFps: number | null
  playbackFps: number | null
  repeatedShare: number
}

/**
 * How fast the camera filmed. A person's word comes first, then what camera or phone wrote into the file. The
 * frame times count only when they are those of a high-speed clip played in real time, 100 fps and more, and no
 * conversion filled them up with repeats. A file that plays at 24 to 60 fps may be a slow-motion export or a
 * real 60 fps clip, and nothing in it tells which: its rate is unknown until a person says it.
 */
export function captureRate({
  userFps,
  metadataFps,
  playbackFps,
  repeatedShare,
}: CaptureEvidence): Clip['capture'] {
  const known = (fps: number, source: Clip['capture']['source']) => ({
    fps,
    source,
    relativeUncertainty: nominalTolerance,
  })
  if (userFps) return known(userFps, 'user')
  if (metadataFps) return known(metadataFps, 'metadata')
  if (playbackFps !== null && playbackFps >= leastRealTimeFps && repeatedShare <= mostRepeated)
    return known(playbackFps, 'timestamps')
  return { fps: null, source: 'unknown', relativeUncertainty: null }
}

/**
 * The capture rate among a file's tags, of container and picture stream alike: `com.android.capture.fps`, which
 * Android phones write, and keys of other makers that end the same way, for instance with `capture-frame-rate`.
 * (Apple's `full-frame-rate-playback-intent` holds no rate.)
 */
export function capturedFpsIn(tags: Record<string, string>): number | null {
  for (const [key, value] of Object.entries(tags))
    if (/(^|[._-])captur(e|ed)[._-]?(fps|(frame)?[._-]?rate)$/i.test(key)) {
      const fps = rateOf(value)
      if (fps !== null) return fps
    }
  return null
}

const ends = 1024 * 1024

/**
 * The capture rate in the XML that some cameras put beside the movie's header, at either end of the file:
 * `<VideoFrame … captureFps="119.88p" …/>`. ffprobe passes over it. Interlaced rates count fields and are left.
 */
export async function capturedFpsInXml(path: string, bytes: number): Promise<number | null> {
  const handle = await open(path, 'r')
  try {
    for (const at of new Set([0, Math.max(0, bytes - ends)])) {
      const { buffer, bytesRead } = await handle.read(Buffer.alloc(Math.min(ends, bytes)), 0, undefined, at)
      const found = /\bcaptureFps="(\d+(?:\.\d+)?)p"/.exec(buffer.toString('latin1', 0, bytesRead))
      if (found) return rateOf(found[1]!)
    }
    return null
  } finally {
    await handle.close()
  }
}

/** "240", "240.000000", "240000/1001" or "119.88p" as a rate that a camera can have. */
function rateOf(text: string): number | null {
  const found = /^\s*(\d+(?:\.\d+)?)(?:\/(\d+))?p?\s*$/.exec(text)
  const fps = found ? Number(found[1]) / Number(found[2] ?? 1) : Number.NaN
  return fps >= 1 && fps <= 1e6 ? fps : null
}
