import type { HitMarks, Verdict } from '../contract/bench.ts'
import type { Ceiling, Flag } from '../contract/reading.ts'
import type { HitRow } from '../contract/workspace.ts'

/** One hit as a rating looks at it. Uncertainties are standard uncertainties. */
export type RatedHit = {
  id: string
  rpm: number | null
  /** The hit's own part: everything that the hits of a camera do not share. */
  standardUncertaintyRpm: number | null
  effectiveDof: number | null
  /** What every hit of this camera shares, as a part of the rate: mostly the capture rate. */
  sharedRelativeUncertainty: number
  /** Hits with the same camera share its error; another camera has another one. */
  camera: string
  session: string
  /** The session's day, as 2026-05-31. */
  day: string
  /** What a correction for the session's drift adds to that, shared by the session's hits; 0 without one. */
  driftRelativeUncertainty: number
  flag: Flag
  ceiling: Ceiling | null
  /** Why a person chose between the candidates; null where nobody did. */
  settledReason: string | null
  verdict: Verdict
  /** True when the reading is older than the marks or the camera's facts. */
  stale: boolean
}

/** The part of a hit's row that its rating rests on. */
export type RatedRow = Pick<HitRow, 'hitId' | 'sessionId' | 'day' | 'verdict' | 'reading' | 'stale'>

/** The hit behind a row of the readings table; a row without a reading has no rate. */
export function ratedHitOf(row: RatedRow, settled: HitMarks['settled'], camera: string): RatedHit {
  const { reading } = row
  const part = (shared: boolean) =>
    Math.hypot(
      ...(reading?.budget ?? [])
        .filter(line => line.sharedByHits === shared)
        .map(line => line.standardUncertaintyRpm),
    )
  const rpm = reading?.rpm ?? null
  return {
    id: row.hitId,
    rpm,
    standardUncertaintyRpm: rpm === null ? null : part(false),
    effectiveDof: reading?.effectiveDof ?? null,
    sharedRelativeUncertainty: rpm ? part(true) / rpm : 0,
    camera,
    session: row.sessionId,
    day: row.day,
    driftRelativeUncertainty: 0,
    flag: reading?.flag ?? 'too-few-frames',
    ceiling: reading?.ceiling ?? null,
    settledReason: settled?.reason ?? null,
    verdict: row.verdict,
    stale: row.stale,
  }
}
