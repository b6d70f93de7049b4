import { createHash } from 'node:crypto'
import type { RatingRow } from '../../core/contract/workspace.ts'
import type { HeldBack } from '../../core/ratings/held-back-reason.ts'
import { type ProposedMishit, proposeMishits } from '../../core/ratings/mishits.ts'
import { type PaddleFigure, paddleFigure } from '../../core/ratings/paddle-figure.ts'
import { type RatedHit, ratedHitOf } from '../../core/ratings/rated-hit.ts'
import { type SessionFigure, sessionFigures } from '../../core/ratings/session-figures.ts'
import type { HitEvidence } from '../store/workspace.ts'
import { keyOf } from './target.ts'

/** A paddle in a set-up as the workspace has it: its row if any hit may be rated, and the hits held back. */
export type Gathered = {
  paddle: string
  setUp: string
  row: RatingRow | null
  figure: PaddleFigure | null
  /** Each session's own figure, the first day first. */
  sessions: SessionFigure[]
  /** All hits as they were rated, those held back too. */
  hits: RatedHit[]
  heldBack: ({ hit: HitEvidence } & HeldBack)[]
  /** Hits in the figure that a rule would leave out; they stay in until a person says so. */
  mishits: ProposedMishit[]
}

/** All paddles that hits were given to, by name. The same evidence gives the same rows, in any order. */
export function gather(evidence: readonly HitEvidence[]): Gathered[] {
  const groups = new Map<string, HitEvidence[]>()
  for (const hit of evidence) {
    const { paddle, setUp } = hit.row
    if (paddle === null || setUp === null) continue
    const key = keyOf({ paddle, setUp })
    groups.set(key, [...(groups.get(key) ?? []), hit])
  }
  return [...groups]
    .sort(([a], [b]) => (a < b ? -1 : 1))
    .map(([, hits]) => gatherOne(hits.toSorted((a, b) => (a.row.hitId < b.row.hitId ? -1 : 1))))
}

function gatherOne(hits: HitEvidence[]): Gathered {
  const byId = new Map(hits.map(hit => [hit.row.hitId, hit]))
  const of = (id: string) => byId.get(id)!
  const [paddle, setUp] = [hits[0]!.row.paddle!, hits[0]!.row.setUp!]
  const rated = hits.map(hit => ratedHitOf(hit.row, hit.settled, hit.cameraName))
  const { figure, ...rating } = paddleFigure(rated)
  const told = {
    paddle,
    setUp,
    figure,
    sessions: sessionFigures(rated),
    hits: rated,
    heldBack: rating.heldBack.map(({ id, ...why }) => ({ hit: of(id), ...why })),
    mishits: proposeMishits(rated.filter(hit => figure?.hits.includes(hit.id))),
  }
  if (!figure) return { ...told, row: null }
  const { meanRpm, band, flag, limit } = figure
  const used = figure.hits.map(of)
  return {
    ...told,
    row: {
      paddle,
      setUp,
      meanRpm,
      band,
      hits: used.length,
      flag,
      limit,
      settledReason: together(
        used.map(hit => (isAmbiguous(hit) ? (hit.settled?.reason ?? '') : '')),
        '; ',
      ),
      captureFps: together(used.map(hit => String(hit.captureFps ?? ''))),
      methodVersion: together(used.map(hit => hit.row.methodVersion ?? '')),
      date: used
        .map(hit => hit.row.day)
        .toSorted()
        .at(-1)!,
      evidence: evidenceOf(used),
    },
  }
}

const isAmbiguous = (hit: HitEvidence) => hit.row.reading?.flag === 'ambiguous'

/** What all of them say, or each thing that some say, once. */
const together = (words: string[], between = ', ') =>
  [...new Set(words.filter(word => word !== ''))]
    .toSorted((a, b) => a.localeCompare(b, 'en', { numeric: true }))
    .join(between)

/** SHA-256 over the hits and what each rests on (its marks, reading and method version). */
const evidenceOf = (used: HitEvidence[]) =>
  createHash('sha256')
    .update(JSON.stringify(used.map(hit => [hit.row.hitId, hit.digest])))
    .digest('hex')
