import { usualRules } from '../../core/contract/rating-rules.ts'
import type { PaddlePage, SetUpRank } from '../../core/contract/standings.ts'
import { seededRandom } from '../../core/numerics/seeded-random.ts'
import { heldBackReason } from '../../core/ratings/held-back-reason.ts'
import { type NamedSetUp, paddleTable } from '../../core/ratings/paddle-table.ts'
import { allOf } from '../../core/ratings/rank-bands.ts'
import { ratedHitOf } from '../../core/ratings/rated-hit.ts'
import { ratedSetUp } from '../../core/ratings/rated-set-up.ts'
import { sessionFigures } from '../../core/ratings/session-figures.ts'
import { rankBandsOf } from '../../core/ratings/standings.ts'
import type { StandInData } from './stand-in-data.ts'

const ratedIn = (data: StandInData, setUpId: string) =>
  data.hits.filter(hit => hit.setUpId === setUpId).map(hit => ratedHitOf(hit, null, 'a camera'))

/** What the host would say of the paddles, by the same core. */
export function ratingsOf(data: StandInData) {
  const setUps = data.paddles.flatMap(paddle =>
    paddle.setUps.map(
      (setUp): NamedSetUp => ({
        setUpId: setUp.id,
        paddleId: paddle.id,
        paddle: paddle.name,
        setUp: setUp.name,
        ...ratedSetUp(ratedIn(data, setUp.id)),
      }),
    ),
  )
  const { metrics = [], rules = usualRules } = data
  return { setUps, table: paddleTable({ setUps, unfilmed: [], metrics, rules }) }
}

export const ranksOf = (data: StandInData): SetUpRank[] =>
  [...allOf(rankBandsOf(ratingsOf(data).setUps, seededRandom(1)))].map(([setUpId, band]) => ({
    setUpId,
    ...band,
  }))

export function pageOf(data: StandInData, paddleId: string): PaddlePage {
  const { table } = ratingsOf(data)
  const { name, notes, setUps } = data.paddles.find(paddle => paddle.id === paddleId)!
  const placeOf = (sessionId: string) => data.sessions.find(each => each.id === sessionId)?.place ?? ''
  return {
    paddleId,
    name,
    notes,
    columns: table.columns,
    drift: null,
    setUps: setUps.map(setUp => {
      const rated = ratedIn(data, setUp.id)
      return {
        setUpId: setUp.id,
        name: setUp.name,
        notes: setUp.notes,
        row: table.rows.find(row => row.setUpId === setUp.id) ?? null,
        hits: data.hits
          .filter(hit => hit.setUpId === setUp.id)
          .map((hit, i) => ({
            hitId: hit.hitId,
            rpm: hit.reading?.rpm ?? null,
            band: hit.reading?.band ?? null,
            flag: rated[i]!.flag,
            sessionId: hit.sessionId,
            day: hit.day,
            clipName: hit.clipName,
            fromFrame: hit.window.fromFrame,
            leftOut: heldBackReason(rated[i]!),
            mishit: null,
            perSpeed: null,
            spinParameter: null,
          })),
        sessions: sessionFigures(rated).map(({ session, day, figure }) => ({
          sessionId: session,
          day,
          place: placeOf(session),
          meanRpm: figure?.meanRpm ?? null,
          band: figure?.band ?? null,
          hits: figure?.hits.length ?? 0,
        })),
        corrected: null,
      }
    }),
  }
}
