import type { HitMarks } from '../../core/contract/bench.ts'
import { WhorlError } from '../../core/contract/problem.ts'
import type { ClipRecord, HitRow, Session } from '../../core/contract/workspace.ts'
import { captureFpsOf } from '../../core/marking/capture-fps-of.ts'
import { marksDocumentOf } from '../../core/marking/marks-document-of.ts'
import { bandHalfDegOf } from '../../core/picture/band-of-fit.ts'
import type { PlottedHit } from '../../core/picture/bearing-picture.ts'
import { nameOf } from '../../core/picture/paddle-dots.ts'
import { type MarkedHit, seriesOf } from '../../core/picture/series-of.ts'
import { readMarksInDetail } from '../../core/spin/read-marks.ts'
import { frameTimes } from '../../core/timing/frame-times.ts'
import type { Parts } from '../service/parts.ts'

/** A hit with all that pictures of it are made from. Its reading is the stored one. */
export type HitEvidence = PlottedHit & {
  row: HitRow
  marks: HitMarks
  clip: ClipRecord
  session: Session
  captureFps: number | null
  /** The one that its rotation was read with, or the camera's; null: a far view. */
  focalLengthPx: number | null
}

/** Throws `not-in-workspace`; `hit-unread` for a hit without a reading. */
export function hitEvidence(
  { workspace, reader }: Pick<Parts, 'workspace' | 'reader'>,
  hitId: string,
): HitEvidence {
  const stored = workspace.hit(hitId)
  const { row, marks } = stored.row.stale ? reader.read(hitId) : stored
  const clip = workspace.clip(row.clipId)
  if (row.reading === null || clip.probe === null) throw new WhorlError('hit-unread', { clip: clip.name })
  const session = workspace.session(clip.sessionId)
  const captureFps = captureFpsOf(clip.probe, session.camera)
  const timesSeconds = frameTimes({
    timestampsSeconds: workspace.timestampsSeconds(clip.id),
    playbackFps: clip.probe.playbackFps,
    captureFps,
    trusted: true,
  })
  const hit: MarkedHit = { marks, timesSeconds }
  const { reading } = row
  const document = marksDocumentOf({
    hit: marks,
    clip: clip.probe,
    frameTimesSeconds: timesSeconds,
    session,
    captureFps,
  })
  const series = seriesFrom(hit, document.marks && readMarksInDetail(document.marks))
  const name = row.paddle && row.setUp ? nameOf({ paddle: row.paddle, setUp: row.setUp }) : clip.name
  return {
    ...{ name, row, marks, clip, session, captureFps, reading, timesSeconds, series },
    window: row.window,
    focalLengthPx: workspace.surface(hitId)?.focalLengthPx ?? session.camera.focalLengthPx,
    bandHalfDeg: bandHalfDegOf(reading, series),
  }
}

type Detail = ReturnType<typeof readMarksInDetail>

function seriesFrom(hit: MarkedHit, detail: Detail | null) {
  const fit =
    detail?.observations && detail.estimate
      ? { observations: detail.observations, estimate: detail.estimate }
      : null
  return seriesOf(hit, fit)
}
