import { setImmediate as breathe } from 'node:timers/promises'
import type { CallContext } from '../../core/contract/calls.ts'
import type { NamedSetUp } from '../../core/ratings/paddle-table.ts'
import { ratedHitOf } from '../../core/ratings/rated-hit.ts'
import { type RatedSetUp, ratedSetUp, ratingVersion } from '../../core/ratings/rated-set-up.ts'
import { methodVersion } from '../../core/spin/method-version.ts'
import type { KeptFigure } from '../store/figures.ts'
import type { HitEvidence, Workspace } from '../store/workspace.ts'
import type { Reader } from './reader.ts'

const madeBy = `${methodVersion}/${ratingVersion}`
/** Other calls are answered between such slices of the work. */
const sliceMilliseconds = 25
/** Hits are written down together: every transaction waits for the disk. */
const together = 20

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
): Promise<FreshFigures> {
  for (;;) {
    const mark = workspace.changeMark()
    const outdated = workspace.outdatedFigures(madeBy)
    if (outdated.length === 0)
      return {
        mark,
        setUps: workspace.figures().map(named),
      }
    await renew(workspace, reader, outdated, progress)
  }
}

async function renew(
  workspace: Workspace,
  reader: Reader,
  outdated: readonly string[],
  progress: CallContext['progress'],
): Promise<void> {
  let since = performance.now()
  for (let done = 0; done < outdated.length; done += together) {
    const setUpIds = outdated.slice(done, done + together)
    for (const setUpId of setUpIds) reader.readStale({ setUpId })
    workspace.keepFigures(setUpIds, madeBy, hits => JSON.stringify(ratedSetUp(hits.map(rated))))
    if (performance.now() - since < sliceMilliseconds) continue
    progress({ what: 'paddles', done, total: outdated.length })
    await breathe()
    since = performance.now()
  }
}

export const rated = ({ row, settled, cameraName }: HitEvidence) => ratedHitOf(row, settled, cameraName)

/** JSON has no infinity: degrees of freedom without bound stand there as null. */
function named({ figure, setUpId, paddleId, paddle, setUp }: KeptFigure): NamedSetUp {
  const kept = JSON.parse(figure) as RatedSetUp
  if (kept.figure) kept.figure.own.degreesOfFreedom ??= Number.POSITIVE_INFINITY
  return Object.assign(kept, { setUpId, paddleId, paddle, setUp })
}
