import { spawn } from 'node:child_process'
import { once } from 'node:events'
import { statSync } from 'node:fs'
import { homedir } from 'node:os'
import { resolve } from 'node:path'
import { WhorlError } from '../../core/contract/problem.ts'
import { startLoopback } from '../loopback/loopback.ts'
import { openHost } from '../service/open-host.ts'
import { pageFilesIn } from '../service/page-files.ts'
import { places } from '../service/places.ts'
import { exitCodes } from './failure.ts'
import type { World } from './world.ts'

export type Served = { workspaceFile: string; folders: string[]; port?: number }

/** Serves the app on this machine until it is interrupted. `ready` hears the secret address. */
export async function serveApp(
  { workspaceFile, folders, port = 0 }: Served,
  world: World,
  ready: (address: string) => void,
): Promise<number> {
  const named = [homedir(), ...folders.map(folderAt)]
  const host = openHost({ workspaceFile, shell: 'loopback', folders: named, pick: null, goesOn: true })
  try {
    const server = await startLoopback(host, { page: pageFilesIn(places.page), port })
    ready(server.address)
    if (!world.signal.aborted) await once(world.signal, 'abort')
    await server.close()
    return exitCodes.fine
  } finally {
    await host.close()
  }
}

function folderAt(word: string): string {
  const path = resolve(word)
  const stat = statSync(path, { throwIfNoEntry: false })
  if (stat?.isDirectory()) return path
  if (stat === undefined) throw new WhorlError('file-not-found', { path })
  throw new WhorlError('file-unreadable', { path, what: 'it is no folder' })
}

/** True where a browser or a window could be seen. */
export const hasDisplay = ({ env }: World): boolean =>
  process.platform !== 'linux' || Boolean(env.DISPLAY || env.WAYLAND_DISPLAY)

const openers: Partial<Record<NodeJS.Platform, [string, ...string[]]>> = {
  darwin: ['open'],
  win32: ['rundll32', 'url.dll,FileProtocolHandler'],
}

/** Asks the desktop to show an address; where it cannot, the printed address is still there. */
export function openBrowser(address: string): void {
  const [program, ...words] = openers[process.platform] ?? ['xdg-open']
  spawn(program, [...words, address], { stdio: 'ignore', detached: true })
    .on('error', () => {})
    .unref()
}
