import { homedir } from 'node:os'
import { join, resolve } from 'node:path'
import { expect, it } from 'vitest'
import { dataFolder, workspaceFileOf } from '../../../electron/service/data-folder.ts'

it.each<[NodeJS.Platform, Record<string, string>, string]>([
  // XDG Base Directory Specification 0.8: $XDG_DATA_HOME, or $HOME/.local/share where unset or empty
  ['linux', { XDG_DATA_HOME: '/data' }, join('/data', 'whorl')],
  ['linux', { XDG_DATA_HOME: '' }, join(homedir(), '.local', 'share', 'whorl')],
  ['linux', {}, join(homedir(), '.local', 'share', 'whorl')],
  ['darwin', {}, join(homedir(), 'Library', 'Application Support', 'Whorl')],
  ['win32', { APPDATA: '/roaming' }, join('/roaming', 'Whorl')],
])('on %s with %j the workspace lies in %s', (platform, env, folder) => {
  expect(dataFolder(env, platform)).toBe(folder)
})

it('takes the workspace that the desktop’s command line names, or the person’s own', () => {
  expect(workspaceFileOf(['electron', '.', '--workspace', 'club.sqlite'], {})).toBe(resolve('club.sqlite'))
  expect(workspaceFileOf(['electron', '.'], { XDG_DATA_HOME: '/data', APPDATA: '/data' })).toMatch(
    /workspace\.sqlite$/,
  )
})
