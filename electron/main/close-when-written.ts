import { channels } from '../preload/channels.ts'
import type { AppWindow, ElectronParts } from './electron-parts.ts'
import { isOurs } from './messages.ts'

const usualLimitMilliseconds = 5000

/**
 * Lets the window close once its page says that every step is saved. A page that is gone is not waited for, one that
 * says nothing for a while no longer.
 */
export function closeWhenWritten(
  ipc: Pick<ElectronParts['ipcMain'], 'on'>,
  window: AppWindow,
  limitMilliseconds = usualLimitMilliseconds,
): void {
  let isAsked = false
  let isFree = false
  const free = () => {
    isFree = true
    if (isAsked && !window.isDestroyed()) window.close()
  }
  window.on('close', event => {
    if (isFree) return
    event.preventDefault()
    if (isAsked) return
    isAsked = true
    window.webContents.send(channels.closing)
    setTimeout(free, limitMilliseconds).unref()
  })
  ipc.on(channels.written, event => {
    if (isAsked && isOurs(window, event)) free()
  })
  window.webContents.on('render-process-gone', free)
}
