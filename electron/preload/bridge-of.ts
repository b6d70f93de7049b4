import type { IpcRenderer, WebUtils } from 'electron'
import type { Bridge } from '../../core/contract/bridge.ts'
import type { HostEvent } from '../../core/contract/calls.ts'
import { channels } from './channels.ts'

/** What the page gets of Electron: these five functions. Nothing of Electron itself goes through. */
export const bridgeOf = (
  ipc: Pick<IpcRenderer, 'invoke' | 'send' | 'on' | 'off'>,
  utils: Pick<WebUtils, 'getPathForFile'>,
): Bridge =>
  Object.freeze<Bridge>({
    call: (name, input, callId) => ipc.invoke(channels.call, name, input, callId),
    cancel: callId => ipc.send(channels.cancel, callId),
    on(listener) {
      const hear = (_: unknown, event: HostEvent) => listener(event)
      ipc.on(channels.event, hear)
      return () => void ipc.off(channels.event, hear)
    },
    pathOf: file => utils.getPathForFile(file),
    beforeClose: written => {
      const said = () => ipc.send(channels.written)
      ipc.on(channels.closing, () => void written().then(said, said))
    },
  })
