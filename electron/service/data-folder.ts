import { homedir } from 'node:os'
import { join, resolve } from 'node:path'

type Env = Record<string, string | undefined>

/**
 * Where the person's own workspace lies unless they say otherwise: the platform's folder for data.
 * Sources: XDG Base Directory Specification 0.8; Apple, File System Programming Guide; Microsoft,
 * KNOWNFOLDERID RoamingAppData.
 */
export function dataFolder(env: Env, platform: NodeJS.Platform = process.platform): string {
  if (platform === 'win32') return join(env.APPDATA ?? join(homedir(), 'AppData', 'Roaming'), 'Whorl')
  if (platform === 'darwin') return join(homedir(), 'Library', 'Application Support', 'Whorl')
  return join(env.XDG_DATA_HOME || join(homedir(), '.local', 'share'), 'whorl')
}

export const ownWorkspace = (env: Env): string => join(dataFolder(env), 'workspace.sqlite')

/** The workspace that a desktop's command line names by `--workspace FILE`, or the person's own. */
export function workspaceFileOf(words: readonly string[], env: Env): string {
  const at = words.lastIndexOf('--workspace')
  const named = at === -1 ? undefined : words[at + 1]
  return named === undefined ? ownWorkspace(env) : resolve(named)
}
