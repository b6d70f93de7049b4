import { spawn } from 'node:child_process'
import { existsSync, readFileSync } from 'node:fs'
import { join } from 'node:path'
import { places } from '../service/places.ts'
import type { World } from './world.ts'

const electron = join(places.program, 'node_modules', 'electron')
const fetchingMilliseconds = 3 * 60_000

/** Electron's program where its package has it. Importing the package itself would fetch it unasked. */
function there(): string | null {
  try {
    const path = join(electron, 'dist', readFileSync(join(electron, 'path.txt'), 'utf8'))
    return existsSync(path) ? path : null
  } catch {
    return null
  }
}

/** The program that shows the app's window, fetched once where it can be; null where it cannot. */
export async function electronProgram(world: World): Promise<string | null> {
  const found = there()
  if (found || !existsSync(join(electron, 'install.js'))) return found
  world.out('Fetching the program for the app’s window, once …\n')
  await new Promise<void>(resolve => {
    const child = spawn(process.execPath, [join(electron, 'install.js')], {
      stdio: 'ignore',
      signal: AbortSignal.any([world.signal, AbortSignal.timeout(fetchingMilliseconds)]),
    })
    child.on('error', () => resolve())
    child.on('close', () => resolve())
  })
  return there()
}
