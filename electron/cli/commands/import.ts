import { resolve } from 'node:path'
import type { ImportPlan, ImportRules } from '../../../core/contract/exchange.ts'
import { WhorlError } from '../../../core/contract/problem.ts'
import { isConnectionString, placeOfString } from '../../export/postgres-place.ts'
import { ownWorkspace } from '../../service/data-folder.ts'
import { command, json } from '../command.ts'
import { importTold } from '../import-told.ts'
import { nameOptions, namesFrom } from '../names-told.ts'
import { text } from '../values.ts'
import { withHost } from '../with-host.ts'

export default command({
  says: 'Brings a table of yours into the workspace: its paddles, and every other column as a value of theirs.',
  takes: 'SOURCE (a .csv, .xlsx, .json or .sqlite file, or a connection string)',
  words: { least: 1, most: 1 },
  options: {
    table: {
      takes: 'NAME',
      says: 'which table or sheet; the first that names paddles unless said',
      read: text,
    },
    paddle: { takes: 'COLUMN', says: 'the column that names the paddle', read: text },
    'set-up': { takes: 'COLUMN', says: 'the column that names the set-up', read: text },
    'leave-out': { takes: 'COLUMN', says: 'a column not to bring, again for each', read: text, many: true },
    ...nameOptions,
    workspace: { takes: 'FILE', says: 'the workspace; your own unless said', read: text },
    preview: { says: 'say what would come, and change nothing' },
    undo: { says: 'take the last import from SOURCE back' },
    json,
  },
  example: 'whorl import paddles.xlsx --preview',
  async run({ words: [word], options }, world) {
    const source = isConnectionString(word!) ? word! : resolve(word!)
    const file = options.workspace ? resolve(options.workspace) : ownWorkspace(world.env)
    const rules: ImportRules = {
      table: options.table ?? null,
      paddleColumn: options.paddle ?? null,
      setUpColumn: options['set-up'] ?? null,
      leftOut: options['leave-out'],
      names: namesFrom(options.same, options.another),
    }
    const told = (plan: ImportPlan) =>
      options.json ? `${JSON.stringify({ schema: 'whorl.import/1', ...plan })}\n` : importTold(plan)
    return withHost(file, world, async ask => {
      if (!options.undo)
        world.out(told(await ask(options.preview ? 'import.preview' : 'import.write', { source, rules })))
      else {
        const place = isConnectionString(source) ? placeOfString(source) : source
        const last = (await ask('transfers.list', {})).find(
          one => one.kind === 'import' && one.place === place && one.undoneAt === null,
        )
        if (!last)
          throw new WhorlError('undo-refused', { what: `there is no import from ${place} to take back` })
        await ask('import.undo', { transferId: last.id })
        world.out(`Took back what came from ${place} (${last.said}).\n`)
      }
      return 0
    })
  },
})
