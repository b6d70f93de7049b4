import { mkdirSync } from 'node:fs'
import type { CallInput } from '../../core/contract/calls.ts'
import { problemOf } from '../../core/contract/problem.ts'
import type { AppHost } from '../service/app-host.ts'
import type { PageFile } from '../service/page-files.ts'
import { registerScheme, serveAddresses } from './app-address.ts'
import { closeWhenWritten } from './close-when-written.ts'
import type { AppWindow, ElectronParts } from './electron-parts.ts'
import { serveMessages } from './messages.ts'
import { pickFiles } from './pick-files.ts'
import { smokeThrough } from './smoke-through.ts'
import { createWindow, denyPermissions, openPage } from './window.ts'

export type DesktopOptions = {
  /** Where this workspace's window keeps its own state; one window a workspace. */
  stateFolder: string
  preload: string
  page(): ReadonlyMap<string, PageFile>
  openHost(pick: (purpose: CallInput<'files.pick'>['purpose']) => Promise<string[]>): Promise<AppHost>
  /** How long a window that is closed waits for its page to have all steps saved; left out: five seconds. */
  closeLimitMilliseconds?: number
  /** Set, the app only looks whether it works, says so in this way, and ends. */
  smoke?: { say(words: string): void }
}

/**
 * Runs the desktop shell until its window closes. A workspace that cannot be opened is said in a box with
 * the way out, and ends the program with 1.
 */
export async function runDesktop(electron: ElectronParts, options: DesktopOptions): Promise<void> {
  const { app } = electron
  registerScheme(electron.protocol)
  try {
    // Electron takes no folder that is not there
    mkdirSync(options.stateFolder, { recursive: true })
    app.setPath('userData', options.stateFolder)
    if (!app.requestSingleInstanceLock()) return app.quit()
    await app.whenReady()
    const host = await options.openHost(pickFiles(electron.dialog))
    closeWithApp(app, host)
    const window = openWindow(electron, options, host)
    await openPage(window)
    if (!options.smoke) return
    options.smoke.say(await smokeThrough(window))
    app.quit()
  } catch (error) {
    const { message, hint } = problemOf(error)
    // A box would wait for a person.
    if (options.smoke) options.smoke.say(`${message} ${hint}`)
    else electron.dialog.showErrorBox(message, hint)
    app.exit(1)
  }
}

function openWindow(electron: ElectronParts, options: DesktopOptions, host: AppHost): AppWindow {
  const session = electron.session.defaultSession
  denyPermissions(session)
  serveAddresses(session.protocol, host, options.page())
  const window = createWindow(electron, options.preload)
  serveMessages(electron.ipcMain, window, host)
  closeWhenWritten(electron.ipcMain, window, options.closeLimitMilliseconds)
  electron.app.on('second-instance', () => {
    if (window.isMinimized()) window.restore()
    window.focus()
  })
  return window
}

/** Running decoders end and the workspace closes before the program does. */
function closeWithApp(app: ElectronParts['app'], host: AppHost): void {
  app.on('window-all-closed', () => app.quit())
  app.on('will-quit', event => {
    event.preventDefault()
    void host.close().finally(() => app.exit(0))
  })
}
