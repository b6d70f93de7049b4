/** Stands in for Electron's module under vitest: importing the real one would try to fetch its binary. */
export const app = {}
export const BrowserWindow = class {}
export const ipcMain = {}
export const ipcRenderer = {}
export const contextBridge = {}
export const protocol = {}
export const session = {}
export const dialog = {}
export const webUtils = {}
