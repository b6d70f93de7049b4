import type { IpcMainEvent, IpcMainInvokeEvent } from 'electron'
import type { Outcome } from '../../core/contract/bridge.ts'
import { WhorlError } from '../../core/contract/problem.ts'
import { channels } from '../preload/channels.ts'
import type { AppHost } from '../service/app-host.ts'
import { serveCall } from '../service/serve-call.ts'
import { isAppPage } from './app-address.ts'
import type { AppWindow, ElectronParts } from './electron-parts.ts'

/** Only the top frame of our own window, showing our own page, may ask. */
export const isOurs = (window: AppWindow, { senderFrame }: IpcMainInvokeEvent | IpcMainEvent): boolean =>
  senderFrame !== null && senderFrame === window.webContents.mainFrame && isAppPage(senderFrame.url)

/** Serves the page's calls. A page that goes away takes its unfinished calls along. */
export function serveMessages(ipc: ElectronParts['ipcMain'], window: AppWindow, host: AppHost): void {
  const running = new Map<unknown, AbortController>()

  ipc.handle(channels.call, async (event, name: unknown, input: unknown, callId: unknown) => {
    if (!isOurs(window, event)) return refused
    const abort = new AbortController()
    running.set(callId, abort)
    try {
      return await serveCall(host, { name, input, callId }, abort.signal)
    } finally {
      running.delete(callId)
    }
  })
  ipc.on(channels.cancel, (event, callId: unknown) => {
    if (isOurs(window, event)) running.get(callId)?.abort()
  })

  const cancelAll = () => {
    for (const abort of running.values()) abort.abort()
  }
  window.webContents.on('render-process-gone', cancelAll)
  window.webContents.on('did-start-navigation', ({ isMainFrame, isSameDocument }) => {
    if (isMainFrame && !isSameDocument) cancelAll()
  })
  host.bus.on(event => {
    if (!window.isDestroyed()) window.webContents.send(channels.event, event)
  })
}

const refused: Outcome<never> = {
  ok: false,
  problem: new WhorlError('not-let-in', {
    what: 'The message did not come from Whorl’s own page.',
  }).toProblem(),
}
