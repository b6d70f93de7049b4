import { setImmediate as breathe } from 'node:timers/promises'
import type { CallContext } from '../../core/contract/calls.ts'
import type { NamedSetUp } from '../../core/ratings/paddle-table.ts'
import { ratedHitOf } from '../../core/ratings/rated-hit.ts'
import { type RatedSetUp, ratedSetUp, ratingVersion } from '../../core/ratings/rated-set-up.ts'
import { methodVersion } from '../../core/spin/method-version.ts'
import type { KeptFigure } from '../store/figures.ts'
import type { RatedEvidence, Workspace } from '../store/workspace.ts'
import type { Reader } from './reader.ts'

const madeBy = `${methodVersion}/${ratingVersion}`
/**
 * Other calls are answered between such pieces. One is kept as one transaction, which waits for the disk: many
 * small set-ups together, a large one alone.
 */
const most = { hits: 500, setUps: 50 }

export type FreshFigures = {
  /** The workspace as it was looked at (`changeMark`). */
  mark: string
  setUps: NamedSetUp[]
}

/** The figures of all set-ups that have hits: the kept ones, and those under which something changed made again. */
export async function freshFigures(
  workspace: Workspace,
  reader: Reader,
  progress: CallContext['progress'] = () => {},
  parsed: ParsedFigures = new Map(),
): Promise<FreshFigures> {
  for (;;) {
    const mark = workspace.changeMark()
    const outdated = workspace.outdatedFigures(madeBy)
    if (outdated.length === 0) return { mark, setUps: namedIn(workspace.figures(), parsed) }
    await renew(workspace, reader, outdated, progress)
  }
}

type Outdated = ReturnType<Workspace['outdatedFigures']>

async function renew(
  workspace: Workspace,
  reader: Reader,
  outdated: Outdated,
  progress: CallContext['progress'],
): Promise<void> {
  let done = 0
  for (const setUpIds of piecesOf(outdated)) {
    for (const setUpId of setUpIds)
      for (const hitId of workspace.staleHits({ setUpId })) {
        reader.read(hitId)
        await breathe()
      }
    workspace.keepFigures(setUpIds, madeBy, hits => JSON.stringify(ratedSetUp(hits.map(rated))))
    done += setUpIds.length
    progress({ what: 'Gathering the paddles', done, total: outdated.length })
    await breathe()
  }
}

function piecesOf(outdated: Outdated): string[][] {
  const pieces: string[][] = []
  let inLast = Number.POSITIVE_INFINITY
  for (const { setUpId, hits } of outdated) {
    inLast += hits
    const last = pieces.at(-1)
    if (last && inLast <= most.hits && last.length < most.setUps) last.push(setUpId)
    else {
      pieces.push([setUpId])
      inLast = hits
    }
  }
  return pieces
}

export const rated = ({ row, settled, cameraName }: RatedEvidence) => ratedHitOf(row, settled, cameraName)

/** Set-ups as they were parsed last: of thousands a change touches few. */
export type ParsedFigures = Map<string, { kept: KeptFigure; setUp: NamedSetUp }>

function namedIn(figures: readonly KeptFigure[], parsed: ParsedFigures): NamedSetUp[] {
  const before = new Map(parsed)
  parsed.clear()
  return figures.map(kept => {
    const last = before.get(kept.setUpId)
    const one = last && isSame(last.kept, kept) ? last : { kept, setUp: named(kept) }
    parsed.set(kept.setUpId, one)
    return one.setUp
  })
}

const isSame = (a: KeptFigure, b: KeptFigure) =>
  a.figure === b.figure && a.paddle === b.paddle && a.setUp === b.setUp && a.paddleId === b.paddleId

/** JSON has no infinity: degrees of freedom without bound stand there as null. */
function named({ figure, setUpId, paddleId, paddle, setUp }: KeptFigure): NamedSetUp {
  const kept = JSON.parse(figure) as RatedSetUp
  if (kept.figure) kept.figure.own.degreesOfFreedom ??= Number.POSITIVE_INFINITY
  return Object.assign(kept, { setUpId, paddleId, paddle, setUp })
}
