import { appAddress, isAppPage } from './app-address.ts'
import type { AppSession, AppWindow, ElectronParts } from './electron-parts.ts'

/** The app's one window: its page has no Node, no other page, and reaches the host by the preload alone. */
export function createWindow(electron: Pick<ElectronParts, 'BrowserWindow'>, preload: string): AppWindow {
  const window = new electron.BrowserWindow({
    width: 1440,
    height: 900,
    minWidth: 1024,
    minHeight: 640,
    show: false,
    title: 'Whorl',
    autoHideMenuBar: true,
    webPreferences: {
      preload,
      contextIsolation: true,
      sandbox: true,
      nodeIntegration: false,
      webviewTag: false,
      navigateOnDragDrop: false,
      spellcheck: false,
    },
  })
  window.webContents.setWindowOpenHandler(() => ({ action: 'deny' }))
  window.webContents.on('will-frame-navigate', details => {
    // a report is looked at in a frame whose whole document the page hands over
    const isReport = !details.isMainFrame && details.url === 'about:srcdoc'
    if (!isReport && (!details.isMainFrame || !isAppPage(details.url))) details.preventDefault()
  })
  window.webContents.on('will-redirect', details => details.preventDefault())
  window.webContents.on('will-attach-webview', event => event.preventDefault())
  window.once('ready-to-show', () => window.show())
  return window
}

/** The app needs no camera, place, clipboard or device: whatever asks is refused. */
export function denyPermissions(session: AppSession): void {
  session.setPermissionRequestHandler((_contents, _permission, answer) => answer(false))
  session.setPermissionCheckHandler(() => false)
  session.setDevicePermissionHandler(() => false)
}

export const openPage = (window: AppWindow): Promise<void> => window.loadURL(appAddress)
