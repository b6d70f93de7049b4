import { resolve } from 'node:path'
import { WhorlError } from '../../../core/contract/problem.ts'
import type { ReportOrder } from '../../../core/contract/publish.ts'
import { ownWorkspace } from '../../service/data-folder.ts'
import { command, json } from '../command.ts'
import { manyOptions, publishInto } from '../many.ts'
import { pickEntrants } from '../pick-entrants.ts'
import { lookOption, pickLook } from '../pick-look.ts'
import { pickSession } from '../pick-session.ts'
import { text } from '../values.ts'
import { type Ask, existing, withHost } from '../with-host.ts'
import { endingOf, placeSaid, writePublished } from '../write-published.ts'

export default command({
  says:
    'Writes a report as one HTML file or a PDF: on one paddle, on several against each other, or on a session.\n' +
    'With .txt, .md or .csv a line a paddle to paste, of all where none is named. The same evidence gives the same bytes.\n' +
    'With --into a report for each paddle: of a --season, of a --session, or of all.',
  takes: '"NAME" or "NAME / SET-UP", again for each',
  words: { least: 0, most: 12 },
  options: {
    to: { takes: 'FILE', says: 'the .html, .pdf, .txt, .md or .csv file to write', read: text },
    ...manyOptions,
    look: lookOption,
    workspace: { takes: 'FILE', says: 'the workspace; your own unless said', read: text },
    json,
  },
  example: 'whorl report "Heron 14" --to heron-14.pdf',
  async run({ words, options }, world) {
    const file = existing(options.workspace ? resolve(options.workspace) : ownWorkspace(world.env))
    const { into, as = 'pdf', season, session } = options
    const to = into === undefined ? placeSaid(options.to, 'report.pdf') : as
    const format = endingOf(to, ['html', 'pdf', 'txt', 'md', 'csv'] as const)
    return withHost(file, world, async ask => {
      const { accents, figures } = (await pickLook(options.look, ask)).look
      const order = { format, accents, figures }
      if (into !== undefined) {
        return publishInto({ into, season, session }, { what: 'report', order }, ask, world, options.json)
      }
      const of = await subjectOf(words, session, format, ask)
      writePublished(to, await ask('publish.report', { of, ...order }), world, options.json)
      return 0
    })
  },
})

async function subjectOf(
  words: readonly string[],
  day: string | undefined,
  format: ReportOrder['format'],
  ask: Ask,
): Promise<ReportOrder['of']> {
  if (day !== undefined) return { kind: 'session', sessionId: await pickSession(day, ask) }
  if (words.length === 0 && ['txt', 'md', 'csv'].includes(format)) return { kind: 'all' }
  if (words.length === 0)
    throw new WhorlError('usage', {
      what: 'What to report on is missing.',
      hint: 'Name a paddle, several paddles, or a session by --session DAY.',
    })
  const { rows } = await ask('ratings.table', {})
  const picked = pickEntrants(
    words,
    rows.map(row => ({ ...row, figure: row.meanRpm ?? (words.length === 1 ? 'held back' : null) })),
  )
  const [first] = picked
  return picked.length === 1
    ? { kind: 'paddle', setUpId: first!.one.setUpId }
    : { kind: 'comparison', setUpIds: picked.map(({ one }) => one.setUpId) }
}
