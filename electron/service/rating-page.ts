import { WhorlError } from '../../core/contract/problem.ts'
import type { PaddleHit, PaddlePage, PaddleSetUp } from '../../core/contract/standings.ts'
import type { Session } from '../../core/contract/workspace.ts'
import { correctDrift, type Drift, driftOf } from '../../core/ratings/drift.ts'
import { heldBackReason } from '../../core/ratings/held-back-reason.ts'
import { proposeMishits } from '../../core/ratings/mishits.ts'
import { paddleFigure } from '../../core/ratings/paddle-figure.ts'
import type { RatedHit } from '../../core/ratings/rated-hit.ts'
import { sessionFigures } from '../../core/ratings/session-figures.ts'
import { spinParameter, spinPerSpeed } from '../../core/ratings/spin-per-speed.ts'
import type { HitEvidence, Workspace } from '../store/workspace.ts'
import type { Parts } from './parts.ts'
import { rated } from './rating-figures.ts'
import type { Ratings } from './rating-table.ts'

/** One paddle with all its set-ups, hit by hit and session by session. The ratings are fresh: nothing is stale. */
export function paddlePage({ workspace }: Parts, { table }: Ratings, paddleId: string): PaddlePage {
  const paddle = workspace.paddles().find(one => one.id === paddleId)
  if (!paddle) throw new WhorlError('not-in-workspace', { what: 'paddle', id: paddleId })
  const sessions = new Map(workspace.sessions().map(session => [session.id, session]))
  const reference = referenceIn(workspace, table.rules.referenceSetUpId)
  const drift = reference && driftOf(reference.hits)
  return {
    paddleId,
    name: paddle.name,
    notes: paddle.notes,
    columns: table.columns,
    setUps: paddle.setUps.map(({ id, name, notes }): PaddleSetUp => {
      const row = table.rows.find(one => one.setUpId === id) ?? null
      return {
        setUpId: id,
        name,
        notes,
        row,
        ...setUpPart(workspace.evidence({ setUpId: id }), sessions, drift),
      }
    }),
    drift: drift &&
      reference && {
        reference: reference.name,
        isSeen: drift.isSeen,
        betweenSessionsRelative: drift.betweenSessionsRelative,
        sessions: drift.sessions.map(({ session, factor, relativeUncertainty }) => ({
          sessionId: session,
          ...dayAndPlace(sessions.get(session)),
          factor,
          halfWidth: 2 * relativeUncertainty,
        })),
      },
  }
}

const dayAndPlace = (session: Session | undefined) => ({
  day: session?.day ?? '',
  place: session?.place ?? '',
})

function referenceIn(workspace: Workspace, setUpId: string | null) {
  const evidence = setUpId === null ? [] : workspace.evidence({ setUpId })
  const first = evidence[0]?.row
  return first ? { name: `${first.paddle}, ${first.setUp}`, hits: evidence.map(rated) } : null
}

function setUpPart(evidence: HitEvidence[], sessions: Map<string, Session>, drift: Drift | null) {
  const hits = evidence.map(rated)
  const inMean = hits.filter(hit => heldBackReason(hit) === null)
  const mishits = new Map(proposeMishits(inMean).map(({ id, reason }) => [id, reason]))
  const corrected = drift && inMean.length > 0 ? correctDrift(inMean, drift) : null
  const figure = corrected && paddleFigure(corrected).figure
  return {
    hits: evidence
      .map((one, i) => hitOf(one, hits[i]!, mishits, sessions))
      .toSorted((a, b) => (a.day < b.day ? -1 : a.day > b.day ? 1 : 0)),
    sessions: sessionFigures(hits).map(({ session, figure: own }) => ({
      sessionId: session,
      ...dayAndPlace(sessions.get(session)),
      meanRpm: own?.meanRpm ?? null,
      band: own?.band ?? null,
      hits: own?.hits.length ?? 0,
    })),
    corrected: figure && { meanRpm: figure.meanRpm, band: figure.band },
  }
}

function hitOf(
  { row }: HitEvidence,
  hit: RatedHit,
  mishits: ReadonlyMap<string, string>,
  sessions: Map<string, Session>,
): PaddleHit {
  const flight = row.reading?.flight
  const radiusMetres = (sessions.get(row.sessionId)?.ball.diameterMetres ?? 0) / 2
  const spin = { rpm: hit.rpm ?? 0, standardUncertaintyRpm: hit.standardUncertaintyRpm ?? 0 }
  return {
    hitId: row.hitId,
    rpm: hit.rpm,
    band: row.reading?.band ?? null,
    flag: hit.flag,
    sessionId: row.sessionId,
    day: row.day,
    clipName: row.clipName,
    fromFrame: row.window.fromFrame,
    leftOut: heldBackReason(hit),
    mishit: mishits.get(row.hitId) ?? null,
    perSpeed: flight && hit.rpm !== null ? spinPerSpeed(spin, flight) : null,
    spinParameter: flight && hit.rpm !== null ? spinParameter(spin, flight, radiusMetres) : null,
  }
}
