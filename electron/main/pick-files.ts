import type { CallInput } from '../../core/contract/calls.ts'
import { clipEndings } from '../service/files.ts'
import type { ElectronParts } from './electron-parts.ts'

/** The desktop's own file dialogs. A dialog that was closed picks nothing. */
export const pickFiles =
  (dialog: ElectronParts['dialog']) =>
  async (purpose: CallInput<'files.pick'>['purpose']): Promise<string[]> => {
    if (purpose === 'target') {
      const { filePath } = await dialog.showSaveDialog({
        title: 'Ratings database',
        defaultPath: 'ratings.sqlite',
        filters: [
          { name: 'SQLite database', extensions: ['sqlite', 'db'] },
          { name: 'Table (CSV)', extensions: ['csv'] },
        ],
        // writing into an existing database is the usual case, and it is previewed first
        properties: ['dontAddToRecent'],
      })
      return filePath ? [filePath] : []
    }
    if (purpose === 'folder') {
      const { filePaths } = await dialog.showOpenDialog({
        title: 'Folder',
        properties: ['openDirectory', 'createDirectory', 'dontAddToRecent'],
      })
      return filePaths
    }
    const { filePaths } = await dialog.showOpenDialog({
      title: 'Clips',
      filters: [
        { name: 'Clips', extensions: clipEndings.map(ending => ending.slice(1)) },
        { name: 'All files', extensions: ['*'] },
      ],
      properties: ['openFile', 'multiSelections', 'dontAddToRecent'],
    })
    return filePaths
  }
