import { contextBridge, ipcRenderer, webUtils } from 'electron'
import { bridgeOf } from './bridge-of.ts'

contextBridge.exposeInMainWorld('whorl', bridgeOf(ipcRenderer, webUtils))
