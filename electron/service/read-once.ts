import { statSync } from 'node:fs'
import { basename } from 'node:path'
import type { HitMarks } from '../../core/contract/bench.ts'
import type { Clip } from '../../core/contract/clip.ts'
import { WhorlError } from '../../core/contract/problem.ts'
import type { SessionDetails } from '../../core/contract/workspace.ts'
import { captureFpsOf } from '../../core/marking/capture-fps-of.ts'
import { methodVersion } from '../../core/spin/method-version.ts'
import type { Workspace } from '../store/workspace.ts'
import type { Job, ReadClip, ReadClipOptions } from '../vision/read-clip.ts'
import type { Vision } from '../vision/vision.ts'

/** A question about a clip that was probed. */
export type Asked = ReadClipOptions & { clip: Clip }
type Kept = Pick<Workspace, 'flightsRead' | 'keepFlights'>

/**
 * Reads a clip from the ball's surface; what was asked of the same contents before is not done again.
 *
 * @throws `clip-not-same` where the file was written to or replaced since it was probed: nothing is kept of it
 */
export async function readOnce(
  vision: Vision,
  kept: Kept | null,
  path: string,
  asked: Asked,
  job: Job,
): Promise<ReadClip> {
  const { clip } = asked
  const words = wordsOf(asked)
  const before = kept?.flightsRead<Omit<ReadClip, 'clip'>>(clip.sha256, words)
  if (before) return { clip, ...before }
  const found = printOf(path)
  const { clip: _, ...flights } = await vision.readClip(path, asked, job)
  // What is kept under a hash was read from those very contents.
  if (found.bytes !== clip.bytes || printOf(path).words !== found.words)
    throw new WhorlError('clip-not-same', { path, name: basename(path) })
  kept?.keepFlights(clip.sha256, words, flights)
  return { clip, ...flights }
}

/**
 * What a reading is made from besides the clip's contents, as one line: two alike give the same reading. A clip
 * that was not probed yet is null.
 */
export function wordsOf({ clip, ...rest }: Omit<Asked, 'clip'> & { clip: Clip | null }): string {
  const own = Object.entries(rest).filter(([, value]) => value != null)
  const captured = clip === null ? [] : [['captured', clip.capture]]
  const said = [...own, ['method', methodVersion], ...captured]
  return JSON.stringify(said.sort(([a], [b]) => (a! < b! ? -1 : 1)))
}

/** What is to be read of a clip, or of one hit on it. Outlines that a person placed stand as they are. */
export function askedOf(clip: Clip, { camera, ball, maxRpm }: SessionDetails, hit?: HitMarks): Asked {
  const captureFps = captureFpsOf(clip, camera)
  const corrected = (hit?.outlines ?? []).filter(({ found }) => !found)
  return {
    clip,
    captureFps,
    captureRelativeUncertainty: camera.relativeUncertainty ?? undefined,
    exposureSeconds: camera.exposureSeconds ?? undefined,
    readoutSeconds: camera.readoutSeconds ?? undefined,
    readoutUncertaintySeconds: camera.readoutUncertaintySeconds ?? undefined,
    focalLengthPx: camera.focalLengthPx ?? undefined,
    ballDiameterMetres: ball.diameterMetres,
    plausible: { maxRpm: maxRpm ?? undefined, sense: hit?.sense ?? undefined },
    window: hit?.window,
    corrected: corrected.map(({ frame, xPx, yPx, radiusPx }) => ({ frame, outline: { xPx, yPx, radiusPx } })),
  }
}

/** Size and time of a file, as far as it is there: another one in its place has others. */
function printOf(path: string): { bytes: number | null; words: string } {
  const stat = statSync(path, { throwIfNoEntry: false })
  return { bytes: stat?.size ?? null, words: `${stat?.size} ${stat?.mtimeMs}` }
}
