import { statSync } from 'node:fs'
import { resolve } from 'node:path'
import { WhorlError } from '../../core/contract/problem.ts'
import type { BatchOrder, Many } from '../../core/contract/publish.ts'
import type { Valued } from './command.ts'
import { pickSession } from './pick-session.ts'
import { progressBar } from './progress-bar.ts'
import { text } from './values.ts'
import type { Ask } from './with-host.ts'
import type { World } from './world.ts'

/** What says that many paddles are meant, the same for picture, report and clip. */
export const manyOptions = {
  into: { takes: 'FOLDER', says: 'a file for each paddle into this folder, instead of --to', read: text },
  as: { takes: 'ENDING', says: 'with --into: what each file is, as its name is to end', read: text },
  season: {
    takes: 'YEAR',
    says: 'with --into: the paddles that were hit in that year; all unless said',
    read: text,
  },
  session: { takes: 'DAY', says: 'the session of that day, as 2026-05-31', read: text },
} satisfies Record<string, Valued<string>>
type Said = { into: string; season: string | undefined; session: string | undefined }

/** Makes them all and says a line each; 1 where one could not be made. Throws the `usage` problem. */
export async function publishInto(
  { into, season, session }: Said,
  make: BatchOrder['make'],
  ask: Ask,
  world: World,
  asJson: boolean,
): Promise<number> {
  const folder = resolve(into)
  if (!statSync(folder, { throwIfNoEntry: false })?.isDirectory())
    throw new WhorlError('usage', {
      what: `${folder} is no folder.`,
      hint: 'Make the folder first, or name another by --into.',
    })
  const bar = progressBar(world)
  try {
    const order = { of: await meant(season, session, ask), folder, make }
    const { made } = await ask('publish.batch', order, bar.show)
    bar.clear()
    for (const one of made)
      world.out(
        asJson
          ? `${JSON.stringify(one.problem ?? { schema: 'whorl.published/1', path: one.path, paddle: one.paddle })}\n`
          : `${one.paddle}: ${one.problem ? `${one.problem.message} ${one.problem.hint}` : one.path}\n`,
      )
    return made.some(one => one.problem !== null) ? 1 : 0
  } finally {
    bar.clear()
  }
}

async function meant(season: string | undefined, session: string | undefined, ask: Ask): Promise<Many> {
  if (session !== undefined) return { kind: 'session', sessionId: await pickSession(session, ask) }
  if (season === undefined) return { kind: 'all' }
  if (/^\d{4}$/.test(season)) return { kind: 'season', year: Number(season) }
  throw new WhorlError('usage', {
    what: `“${season}” is no year.`,
    hint: 'Name the season by its year, as --season 2026.',
  })
}
