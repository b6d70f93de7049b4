import { resolve } from 'node:path'
import type { RatingRules } from '../../core/contract/rating-rules.ts'
import type { Entrant } from '../../core/ratings/standings.ts'
import { ownWorkspace } from '../service/data-folder.ts'
import { freshFigures } from '../service/rating-figures.ts'
import { ratingRulesOf } from '../service/rating-rules.ts'
import { createReader } from '../service/reader.ts'
import { openWorkspace } from '../store/open-workspace.ts'
import { existing } from './with-host.ts'
import type { World } from './world.ts'

/** Every paddle and set-up of a workspace that hits were given to, and how the workspace places them. */
export async function ratedIn(
  workspace: string | undefined,
  world: World,
): Promise<{ entrants: Entrant[]; rules: RatingRules }> {
  const file = existing(workspace === undefined ? ownWorkspace(world.env) : resolve(workspace))
  const open = openWorkspace(file, { now: () => new Date() })
  try {
    const { setUps } = await freshFigures(open, createReader(open))
    return { entrants: setUps, rules: ratingRulesOf(open) }
  } finally {
    open.close()
  }
}
