import type { BenchMark, HitMarks } from '../../../../core/contract/bench.ts'
import type { Reading } from '../../../../core/contract/reading.ts'
import type { ClipRecord, Session } from '../../../../core/contract/workspace.ts'
import { marksDocumentOf } from '../../../../core/marking/marks-document-of.ts'
import { bandHalfDegOf } from '../../../../core/picture/band-of-fit.ts'
import type { Series } from '../../../../core/picture/series.ts'
import { seriesOf } from '../../../../core/picture/series-of.ts'
import { readMarksInDetail } from '../../../../core/spin/read-marks.ts'
import { expectedBy } from './expected-by.ts'
import type { Expected } from './expected-mark.ts'

/** What the marks say just now: the reading, and all that is drawn of its fit. */
export type LiveReading = {
  reading: Reading | null
  /** Why there are no marks to read yet. */
  reason: string | null
  hasFit: boolean
  series: Series[]
  /** Where the fit has a mark in a frame; null while there is no fit or it does not know the mark. */
  expected(mark: BenchMark, frame: number): Expected | null
  /** Half-width of the fit's band at a time, degrees. */
  bandHalfDeg(timeSeconds: number): number
}

export type LiveSource = {
  marks: HitMarks
  clip: ClipRecord
  session: Session
  captureFps: number | null
  timesSeconds: number[]
}

/** Reads the marks as they stand, by the same core as the host: no round trip. */
export function liveReading(source: LiveSource): LiveReading {
  const { marks: hit, clip, session, captureFps, timesSeconds } = source
  if (!clip.probe) return withoutFit(source, null)
  const document = marksDocumentOf({
    hit,
    clip: clip.probe,
    frameTimesSeconds: timesSeconds,
    session,
    captureFps,
  })
  if (document.marks === null) return withoutFit(source, document.reason)
  const detail = readMarksInDetail(document.marks)
  const { reading, observations, estimate } = detail
  if (!observations || !estimate) return { ...withoutFit(source, null), reading }
  const series = seriesOf(source, { observations, estimate })
  return {
    reading,
    reason: null,
    hasFit: true,
    series,
    expected: expectedBy(source, observations, estimate),
    bandHalfDeg: bandHalfDegOf(reading, series),
  }
}

const withoutFit = (source: LiveSource, reason: string | null): LiveReading => ({
  reading: null,
  reason,
  hasFit: false,
  series: seriesOf(source, null),
  expected: () => null,
  bandHalfDeg: () => 0,
})
