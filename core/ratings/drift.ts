import { allPairs, comparePairs } from './compare.ts'
import { sharedUncertaintyOf } from './known-mean.ts'
import type { PaddleFigure } from './paddle-figure.ts'
import { randomEffectsMean } from './random-effects-mean.ts'
import type { RatedHit } from './rated-hit.ts'
import { sessionFigures } from './session-figures.ts'

export type SessionDrift = {
  session: string
  /** The reference paddle's mean that day over its mean of all days; 1 is no drift. */
  factor: number
  /** Of the factor: the scatter of the reference's hits that day. */
  relativeUncertainty: number
}
export type Drift = {
  sessions: SessionDrift[]
  /** Standard deviation between sessions, as a part of the rate, beyond what the hits' scatter explains. */
  betweenSessionsRelative: number
  /** True where any two sessions differ at 1 %, after Holm over all pairs of sessions. */
  isSeen: boolean
  /** How well the reference's mean over all sessions is known: what every corrected hit shares. */
  scaleRelativeUncertainty: number
}

const rarely = 0.01

/**
 * How the sessions differ, by one reference paddle that was hit in every one of them. Null with fewer than
 * two sessions of at least two rated hits each.
 */
export function driftOf(reference: readonly RatedHit[]): Drift | null {
  const sessions = sessionFigures(reference).flatMap(({ session, figure }) =>
    figure && figure.hits.length > 1 ? [{ session, figure }] : [],
  )
  if (sessions.length < 2) return null
  const values = sessions.map(({ figure }) => figure.meanRpm)
  const uncertainties = sessions.map(({ figure }) => figure.own.standardUncertaintyRpm)
  const { mean, betweenSd, standardUncertainty } = randomEffectsMean(values, uncertainties)
  const pairs = comparePairs(allPairs(sessions.map(({ figure }) => ({ ...figure, shared: [] }))))
  return {
    sessions: sessions.map(({ session, figure }) => ({
      session,
      factor: figure.meanRpm / mean,
      relativeUncertainty: figure.own.standardUncertaintyRpm / figure.meanRpm,
    })),
    betweenSessionsRelative: betweenSd / mean,
    isSeen: pairs.some(({ adjustedP }) => adjustedP !== null && adjustedP < rarely),
    scaleRelativeUncertainty: Math.hypot(standardUncertainty, sharedOf(sessions)) / mean,
  }
}

/**
 * The hits as they would have been on the reference's mean day. What the reference does not know of a
 * session is shared by that session's hits; its scale is shared by all, and takes the place of the
 * cameras' own errors, which divide out. Null where a hit's session has no reference.
 */
export function correctDrift(hits: readonly RatedHit[], drift: Drift): RatedHit[] | null {
  const bySession = new Map(drift.sessions.map(one => [one.session, one]))
  const corrected = hits.flatMap(hit => {
    const session = bySession.get(hit.session)
    if (session === undefined) return []
    return [
      {
        ...hit,
        rpm: hit.rpm === null ? null : hit.rpm / session.factor,
        standardUncertaintyRpm:
          hit.standardUncertaintyRpm === null ? null : hit.standardUncertaintyRpm / session.factor,
        driftRelativeUncertainty: session.relativeUncertainty,
        camera: 'the reference paddle',
        sharedRelativeUncertainty: drift.scaleRelativeUncertainty,
      },
    ]
  })
  return corrected.length === hits.length ? corrected : null
}

/** The cameras' part of the mean over sessions, as if one camera's error moved them all: the most it can be. */
function sharedOf(sessions: readonly { figure: PaddleFigure }[]): number {
  return sessions.reduce((sum, { figure }) => sum + sharedUncertaintyOf(figure), 0) / sessions.length
}
