import type {
  App,
  BrowserWindow,
  BrowserWindowConstructorOptions,
  Dialog,
  IpcMain,
  Protocol,
  Session,
  WebContents,
} from 'electron'

type Contents = Pick<WebContents, 'send' | 'mainFrame' | 'on' | 'setWindowOpenHandler' | 'executeJavaScript'>

export type AppWindow = Pick<
  BrowserWindow,
  'loadURL' | 'show' | 'focus' | 'close' | 'restore' | 'isMinimized' | 'isDestroyed' | 'on' | 'once'
> & { webContents: Contents }

export type AppSession = Pick<
  Session,
  'setPermissionRequestHandler' | 'setPermissionCheckHandler' | 'setDevicePermissionHandler'
> & { protocol: Pick<Protocol, 'handle'> }

/** The parts of Electron that the desktop shell uses, handed in so that a test can hand in its own. */
export type ElectronParts = {
  app: Pick<App, 'whenReady' | 'on' | 'quit' | 'exit' | 'requestSingleInstanceLock' | 'getPath' | 'setPath'>
  BrowserWindow: new (options: BrowserWindowConstructorOptions) => AppWindow
  ipcMain: Pick<IpcMain, 'handle' | 'on'>
  protocol: Pick<Protocol, 'registerSchemesAsPrivileged'>
  session: { defaultSession: AppSession }
  dialog: Pick<Dialog, 'showOpenDialog' | 'showSaveDialog' | 'showErrorBox'>
}
