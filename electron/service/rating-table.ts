import type { CallContext } from '../../core/contract/calls.ts'
import type { PaddleTable } from '../../core/contract/standings.ts'
import { type NamedSetUp, paddleTable } from '../../core/ratings/paddle-table.ts'
import type { Parts } from './parts.ts'
import { freshFigures, type ParsedFigures } from './rating-figures.ts'
import { ratingRulesOf } from './rating-rules.ts'

export type Ratings = { setUps: NamedSetUp[]; table: PaddleTable }

/**
 * The paddles of a workspace and their table, computed once and again only when something changed. Asked
 * twice at once, it computes once and tells both how far it is; who asked first and went away leaves the work
 * to the next.
 */
export function createRatings({ workspace, reader }: Pick<Parts, 'workspace' | 'reader'>) {
  let known: (Ratings & { mark: string }) | null = null
  const parsed: ParsedFigures = new Map()
  let running: Promise<Ratings> | null = null
  const told = new Set<CallContext['progress']>()

  async function compute(): Promise<Ratings> {
    const tellAll: CallContext['progress'] = said => {
      for (const tell of told) tell(said)
    }
    const { mark, setUps } = await freshFigures(workspace, reader, tellAll, parsed)
    const rest = {
      unfilmed: workspace.unfilmed(),
      metrics: workspace.metrics(),
      rules: ratingRulesOf(workspace),
    }
    known = { mark, setUps, table: paddleTable({ setUps, ...rest }) }
    return known
  }
  return async (progress: CallContext['progress']): Promise<Ratings> => {
    if (known?.mark === workspace.changeMark()) return known
    told.add(progress)
    running ??= compute().finally(() => {
      running = null
      told.clear()
    })
    return running
  }
}
