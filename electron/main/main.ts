import { createHash } from 'node:crypto'
import { mkdtempSync } from 'node:fs'
import { tmpdir } from 'node:os'
import { join } from 'node:path'
import { app, BrowserWindow, dialog, ipcMain, protocol, session } from 'electron'
import { workspaceFileOf } from '../service/data-folder.ts'
import { openHost } from '../service/open-host.ts'
import { pageFilesIn } from '../service/page-files.ts'
import { places } from '../service/places.ts'
import { runDesktop } from './desktop.ts'

/** `--smoke`: whether this installation works, on a workspace that is nobody's. */
const isSmoke = process.argv.includes('--smoke')
const workspaceFile = isSmoke
  ? join(mkdtempSync(join(tmpdir(), 'whorl-smoke-')), 'workspace.sqlite')
  : workspaceFileOf(process.argv, process.env)
const workspaceName = createHash('sha256').update(workspaceFile).digest('hex').slice(0, 16)

void runDesktop(
  { app, BrowserWindow, dialog, ipcMain, protocol, session },
  {
    stateFolder: join(app.getPath('appData'), 'whorl', 'windows', workspaceName),
    preload: places.preload,
    page: () => pageFilesIn(places.page),
    openHost: async pick =>
      openHost({ workspaceFile, shell: 'desktop', folders: null, pick, goesOn: !isSmoke }),
    smoke: isSmoke ? { say: words => void process.stdout.write(`${words}\n`) } : undefined,
  },
)
