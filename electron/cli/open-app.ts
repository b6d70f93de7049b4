import { spawn } from 'node:child_process'
import { places } from '../service/places.ts'
import { electronProgram } from './electron-program.ts'
import { exitCodes } from './failure.ts'
import { hasDisplay, openBrowser, type Served, serveApp } from './serve-app.ts'
import { smokeApp } from './smoke-app.ts'
import type { World } from './world.ts'

/**
 * Opens the app and stays until it is closed: in its own window where Electron is there or can be had,
 * else, the very same, in a browser.
 */
export async function openApp(served: Served, world: World): Promise<number> {
  const display = hasDisplay(world)
  const program = display ? await electronProgram(world) : null
  if (program && (await runWindow(program, ['--workspace', served.workspaceFile], world)) === 0)
    return exitCodes.fine
  if (world.signal.aborted) return exitCodes.fine
  return serveApp(served, world, address => {
    world.out(`Whorl is open at\n  ${address}\nCtrl-C ends it.\n`)
    if (display) openBrowser(address)
  })
}

/** Opens the app to see whether it works, in the shell that a person would get here. */
export async function smokeOpened(world: World): Promise<number> {
  const program = hasDisplay(world) ? await electronProgram(world) : null
  return program ? ((await runWindow(program, ['--smoke'], world)) ?? exitCodes.unusable) : smokeApp(world)
}

/** The exit code of the window, 0 when it was shown and closed again; null where Electron cannot run here. */
function runWindow(program: string, words: string[], world: World): Promise<number | null> {
  return new Promise(resolve => {
    const child = spawn(program, [places.program, ...words], {
      stdio: words.includes('--smoke') ? 'inherit' : 'ignore',
      signal: world.signal,
    })
    child.on('error', () => resolve(world.signal.aborted ? exitCodes.fine : null))
    child.on('close', code => resolve(code))
  })
}
