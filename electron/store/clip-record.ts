import { basename } from 'node:path'
import type { Clip } from '../../core/contract/clip.ts'
import type { Problem } from '../../core/contract/problem.ts'
import type { ClipRecord } from '../../core/contract/workspace.ts'
import type { SqlValues } from './database.ts'
import type { FoundClip } from './workspace.ts'

export type ClipRow = {
  id: string
  session_id: string
  name: string
  path: string
  sha256: string | null
  probe: string | null
  problem: string | null
  capture_fps_said: number | null
  hits: number
  accepted: number
}
/** Clips with the counts of their hits; the caller says which. */
export const clipQuery = `
  SELECT id, session_id, name, path, sha256, probe, problem, capture_fps_said,
    (SELECT count(*) FROM hit WHERE clip_id = clip.id) AS hits,
    (SELECT count(*) FROM hit WHERE clip_id = clip.id AND verdict = 'accepted') AS accepted
  FROM clip`

/** What the columns take of a file that was looked at. */
export const valuesOf = ({ path, probe, problem, timestampsSeconds }: FoundClip): SqlValues => ({
  name: basename(path),
  path,
  sha256: probe?.sha256 ?? null,
  // The path is a column of its own: a file that only moved has the same probe.
  probe: probe && JSON.stringify({ ...probe, path: '' }),
  problem: problem && JSON.stringify(problem),
  timestamps:
    timestampsSeconds.length === 0 ? null : new Uint8Array(Float64Array.from(timestampsSeconds).buffer),
})

/** The bytes are copied: a driver may hand them out at an address that is no multiple of 8. */
export const doublesOf = (bytes: Uint8Array | null) => [
  ...new Float64Array(new Uint8Array(bytes ?? []).buffer),
]

export function recordOf(row: ClipRow): ClipRecord {
  const problem = row.problem === null ? null : (JSON.parse(row.problem) as Problem)
  const probe = problem || row.probe === null ? null : (JSON.parse(row.probe) as Clip)
  return {
    id: row.id,
    sessionId: row.session_id,
    name: row.name,
    path: row.path,
    probe: probe && { ...withSaidFps(probe, row.capture_fps_said), path: row.path },
    problem,
    hits: row.hits,
    accepted: row.accepted,
  }
}

/** What a person says of the capture rate stands before what the file says, and its warnings fall away. */
function withSaidFps(probe: Clip, captureFps: number | null): Clip {
  if (captureFps === null) return probe
  return {
    ...probe,
    capture: { fps: captureFps, source: 'user', relativeUncertainty: null },
    warnings: probe.warnings.filter(({ code }) => code !== 'capture-rate-unknown' && code !== 'retimed'),
  }
}
