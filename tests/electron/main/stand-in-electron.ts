import { EventEmitter } from 'node:events'
import { runInNewContext } from 'node:vm'
import type { ElectronParts } from '../../../electron/main/electron-parts.ts'
import { bridgeOf } from '../../../electron/preload/bridge-of.ts'

type Listener = (...words: unknown[]) => unknown
type Frame = { url: string }

/** The page's side of Electron's messages: what a preload gets, sent from a given frame. */
export type StandInRenderer = {
  invoke(channel: string, ...words: unknown[]): Promise<unknown>
  send(channel: string, ...words: unknown[]): void
  on(channel: string, listener: Listener): void
  off(channel: string, listener: Listener): void
}

/** As a message is between processes: a structured clone, so that nothing but data gets through. */
const cloned = (words: unknown[]): unknown[] => structuredClone(words)

/**
 * Electron's parts without Electron. Events are kept and can be sent by `emit`, messages travel as clones,
 * and what the shell asked of Electron (window options, handlers, boxes) can be looked at.
 */
export function standInElectron({ firstInstance = true } = {}) {
  const appEvents = new EventEmitter()
  const handlers = new Map<string, Listener>()
  const listeners = new EventEmitter()
  const toPage = new EventEmitter()
  const made: Record<string, unknown>[] = []
  const windows: { close(): void }[] = []
  const seen = {
    schemes: [] as unknown[],
    paths: {} as Record<string, string>,
    boxes: [] as string[][],
    exits: [] as number[],
    quits: 0,
    loaded: [] as string[],
    shown: 0,
    closed: 0,
    focused: 0,
    windowOpen: null as null | ((details: { url: string }) => { action: string }),
    protocol: null as null | ((request: Request) => Promise<Response>),
    permissionRequest: null as null | Listener,
    permissionCheck: null as null | Listener,
    devicePermission: null as null | Listener,
    dialogs: [] as unknown[],
  }
  const mainFrame: Frame = { url: 'whorl://app/#/sessions' }
  const contents = Object.assign(new EventEmitter(), {
    mainFrame,
    /** As in the page, which has the preload's bridge. */
    executeJavaScript: async (code: string) => {
      const ipc = renderer() as unknown as Parameters<typeof bridgeOf>[0]
      return runInNewContext(code, { whorl: bridgeOf(ipc, { getPathForFile: () => '' }) })
    },
    send: (channel: string, ...words: unknown[]) => toPage.emit(channel, {}, ...cloned(words)),
    setWindowOpenHandler: (handler: typeof seen.windowOpen) => {
      seen.windowOpen = handler
    },
  })
  class StandInWindow extends EventEmitter {
    webContents = contents
    constructor(options: Record<string, unknown>) {
      super()
      made.push(options)
      windows.push(this)
      queueMicrotask(() => this.emit('ready-to-show'))
    }
    async loadURL(url: string) {
      seen.loaded.push(url)
    }
    show = () => void seen.shown++
    focus = () => void seen.focused++
    restore = () => {}
    isMinimized = () => true
    /** As a person's click on the window's cross. */
    close = () => {
      let isKept = false
      this.emit('close', { preventDefault: () => (isKept = true) })
      if (!isKept) seen.closed++
    }
    isDestroyed = () => false
  }
  const parts = {
    app: {
      on: (name: string, listener: Listener) => appEvents.on(name, listener),
      whenReady: async () => {},
      quit: () => void seen.quits++,
      exit: (code: number) => void seen.exits.push(code),
      requestSingleInstanceLock: () => firstInstance,
      getPath: () => '/data',
      setPath: (name: string, path: string) => {
        seen.paths[name] = path
      },
    },
    BrowserWindow: StandInWindow,
    ipcMain: {
      handle: (channel: string, handler: Listener) => handlers.set(channel, handler),
      on: (channel: string, listener: Listener) => listeners.on(channel, listener),
    },
    protocol: { registerSchemesAsPrivileged: (schemes: unknown[]) => seen.schemes.push(...schemes) },
    session: {
      defaultSession: {
        setPermissionRequestHandler: (handler: Listener) => {
          seen.permissionRequest = handler
        },
        setPermissionCheckHandler: (handler: Listener) => {
          seen.permissionCheck = handler
        },
        setDevicePermissionHandler: (handler: Listener) => {
          seen.devicePermission = handler
        },
        protocol: {
          handle: (_scheme: string, handler: NonNullable<typeof seen.protocol>) => {
            seen.protocol = handler
          },
        },
      },
    },
    dialog: {
      showErrorBox: (title: string, content: string) => void seen.boxes.push([title, content]),
      showOpenDialog: async (options: unknown) => {
        seen.dialogs.push(options)
        return { canceled: false, filePaths: ['/clips/a.mp4', '/clips/b.mov'] }
      },
      showSaveDialog: async (options: unknown) => {
        seen.dialogs.push(options)
        return { canceled: true, filePath: '' }
      },
    },
  }

  /** The page's messages, as if they came from this frame; our own page's unless said. */
  const renderer = (senderFrame: Frame | null = mainFrame): StandInRenderer => ({
    invoke: async (channel, ...words) => {
      const handler = handlers.get(channel)
      if (!handler) throw new Error(`No handler registered for '${channel}'`)
      return cloned([await handler({ senderFrame, sender: contents }, ...cloned(words))])[0]
    },
    send: (channel, ...words) =>
      void listeners.emit(channel, { senderFrame, sender: contents }, ...cloned(words)),
    on: (channel, listener) => void toPage.on(channel, listener),
    off: (channel, listener) => void toPage.off(channel, listener),
  })

  return { electron: parts as unknown as ElectronParts, seen, made, windows, contents, appEvents, renderer }
}
