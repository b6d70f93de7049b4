import { resolve } from 'node:path'
import type { Backup } from '../../../core/contract/backups.ts'
import { WhorlError } from '../../../core/contract/problem.ts'
import { ownWorkspace } from '../../service/data-folder.ts'
import { backupsFolderOf, backupsOf } from '../../store/backups.ts'
import { restoreFile } from '../../store/restore.ts'
import { command, json } from '../command.ts'
import { table } from '../figures.ts'
import { text } from '../values.ts'

export default command({
  says: 'Goes back to a backup of the workspace, or lists the backups there are. What was there is kept.',
  takes: '[BACKUP]',
  words: { least: 0, most: 1 },
  options: {
    workspace: { takes: 'FILE', says: 'the workspace; your own unless said', read: text },
    json,
  },
  example: 'whorl restore latest',
  async run({ words: [wanted], options }, world) {
    const workspace = options.workspace ? resolve(options.workspace) : ownWorkspace(world.env)
    const backups = backupsOf(workspace)
    if (wanted === undefined) {
      world.out(
        options.json
          ? `${JSON.stringify({ schema: 'whorl.backups/1', workspace, backups })}\n`
          : told(workspace, backups),
      )
      return 0
    }
    const from = pathOf(wanted, backups)
    const { before, setAside } = restoreFile(workspace, from, new Date())
    world.out(
      options.json
        ? `${JSON.stringify({ schema: 'whorl.restore/1', workspace, from, before: before?.path ?? null, setAside })}\n`
        : `${[
            `${workspace} is again as in ${from}.`,
            ...(before ? [`What was there is kept as ${before.path}.`] : []),
            ...(setAside ? [`The damaged file is kept as ${setAside}.`] : []),
            'A window that is open on it shows this when it is loaded again.',
          ].join('\n')}\n`,
    )
    return 0
  },
})

const told = (workspace: string, backups: Backup[]): string =>
  backups.length === 0
    ? `There is no backup in ${backupsFolderOf(workspace)} yet. The app makes one a day while it is open.\n`
    : table(
        backups.map(({ name, bytes }) => [name, `${(bytes / 1e6).toFixed(1)} MB`]),
        [1],
      )

/** `latest`, the name of one that is listed, or any file. */
function pathOf(wanted: string, backups: Backup[]): string {
  if (wanted === 'latest') {
    if (backups[0] === undefined)
      throw new WhorlError('usage', {
        what: 'There is no backup of this workspace yet.',
        hint: 'Name a file that was copied from it.',
      })
    return backups[0].path
  }
  return backups.find(({ name }) => name === wanted)?.path ?? resolve(wanted)
}
