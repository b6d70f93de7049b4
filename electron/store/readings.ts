import { createHash } from 'node:crypto'
import type { Clip } from '../../core/contract/clip.ts'
import type { Reading } from '../../core/contract/reading.ts'
import type { ListedHit } from '../../core/contract/workspace.ts'
import { captureFpsOf } from '../../core/marking/capture-fps-of.ts'
import type { Database } from './database.ts'
import { readHitMarks } from './hit-marks.ts'
import { filtered, type HitRowColumns, hitRowOf, hitRowQuery } from './hit-rows.ts'
import { benchHit } from './hits.ts'
import { usedCamera } from './used-camera.ts'
import type { HitEvidence, HitFilter, RatedEvidence, Workspace } from './workspace.ts'

type EvidenceRow = HitRowColumns & {
  settled: string | null
  cameraName: string
  cameraFps: number | null
  cameraUncertainty: number | null
  saidFps: number | null
  capture: string | null
  digest: string | null
}

/** What was read from the marks of a hit, and what a rating may rest on. */
export const readingStore = (
  db: Database,
  stamp: () => string,
): Pick<Workspace, 'saveReading' | 'staleHits' | 'evidence'> => ({
  saveReading: (hitId, reading, methodVersion) =>
    db.transaction(() => {
      writeReading(db, hitId, { reading, methodVersion, at: stamp() })
      return benchHit(db, hitId)
    }),

  staleHits: filter => {
    const { where, values } = filtered(filter)
    return db
      .all<{ id: string }>(
        `SELECT hit.id FROM hit JOIN clip ON clip.id = hit.clip_id
           LEFT JOIN reading ON reading.hit_id = hit.id
         ${where === '' ? 'WHERE' : `${where} AND`} reading.revision IS NOT hit.revision
         ORDER BY hit.added_at, hit.id`,
        values,
      )
      .map(row => row.id)
  },

  evidence: (filter = {}) => evidence(db, filter),
})

/** What lists show of a reading, kept beside it. */
const listed = ({ rpm, band, flag, counted }: Reading): ListedHit['reading'] => ({ rpm, band, flag, counted })

/** The reading of the hit's marks as they are now, in the caller's transaction. */
export function writeReading(
  db: Database,
  hitId: string,
  { reading, methodVersion, at }: { reading: Reading; methodVersion: string; at: string },
): void {
  const { verdict: _, ...marks } = readHitMarks(db, hitId)
  const digest = createHash('sha256')
    .update(JSON.stringify([marks, reading, methodVersion]))
    .digest('hex')
  db.run(
    `INSERT OR REPLACE INTO reading (hit_id, reading, method_version, revision, digest, made_at, used, listed)
     SELECT id, $reading, $methodVersion, revision, $digest, $at, $used, $listed FROM hit WHERE id = $hitId`,
    {
      hitId,
      reading: JSON.stringify(reading),
      listed: JSON.stringify(listed(reading)),
      methodVersion,
      digest,
      at,
      used: JSON.stringify(usedCamera(db, hitId)),
    },
  )
}

/** What ratings may rest on: rows of hits with what their figures need. */
function evidence(db: Database, filter: HitFilter): HitEvidence[] {
  const { where, values } = filtered(filter)
  return db
    .all<EvidenceRow>(
      `SELECT ${hitRowQuery.columns}, hit.settled AS settled, session.camera_name AS cameraName,
         session.capture_fps AS cameraFps, session.relative_uncertainty AS cameraUncertainty,
         clip.capture_fps_said AS saidFps,
         clip.probe ->> '$.capture' AS capture, reading.digest AS digest
       FROM ${hitRowQuery.tables} ${where} ${hitRowQuery.order}`,
      values,
    )
    .map(evidenceOf)
}

type RatedColumns = Pick<
  EvidenceRow,
  'hitId' | 'sessionId' | 'day' | 'verdict' | 'verdictReason' | 'reading' | 'stale' | 'settled' | 'cameraName'
>

/** The same hits in the same order with what a figure is computed from alone: half the time of the whole. */
export function ratedEvidence(db: Database, setUpId: string): RatedEvidence[] {
  return db
    .all<RatedColumns>(
      `SELECT hit.id AS hitId, session.id AS sessionId, session.day AS day, hit.verdict AS verdict,
         hit.verdict_reason AS verdictReason, reading.reading AS reading,
         reading.revision IS NOT hit.revision AS stale, hit.settled AS settled, session.camera_name AS cameraName
       FROM ${hitRowQuery.tables} WHERE hit.set_up_id = $setUpId ${hitRowQuery.order}`,
      { setUpId },
    )
    .map(({ hitId, sessionId, day, verdict, verdictReason, reading, stale, settled, cameraName }) => ({
      row: {
        hitId,
        sessionId,
        day,
        verdict: { state: verdict, reason: verdictReason },
        reading: reading === null ? null : JSON.parse(reading),
        stale: reading !== null && stale === 1,
      },
      settled: settled === null ? null : JSON.parse(settled),
      cameraName,
    }))
}

const unknownCapture: Clip['capture'] = { fps: null, source: 'unknown', relativeUncertainty: null }

function evidenceOf(row: EvidenceRow): HitEvidence {
  const inFile: Clip['capture'] = row.capture === null ? unknownCapture : JSON.parse(row.capture)
  return {
    row: hitRowOf(row),
    settled: row.settled === null ? null : JSON.parse(row.settled),
    cameraName: row.cameraName,
    captureFps:
      row.saidFps ??
      captureFpsOf(
        { capture: inFile },
        { captureFps: row.cameraFps, relativeUncertainty: row.cameraUncertainty },
      ),
    digest: row.digest,
  }
}
