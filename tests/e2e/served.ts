import { type ChildProcess, spawn } from 'node:child_process'
import { once } from 'node:events'
import { mkdtempSync, rmSync } from 'node:fs'
import { tmpdir } from 'node:os'
import { join } from 'node:path'
import { createInterface } from 'node:readline'
import { fileURLToPath } from 'node:url'

/** The checkout, with a separator at its end. */
export const root = fileURLToPath(new URL('../..', import.meta.url))
export const samples = join(root, 'sample-clips')
const launcher = join(root, 'electron/cli/launch.mjs')

/** The program served on loopback with a workspace of its own, as `whorl serve` does it. */
export type Served = { address: string; folder: string; pid: number; stop: () => Promise<void> }

export async function serve(folder = mkdtempSync(join(tmpdir(), 'whorl-e2e-'))): Promise<Served> {
  const words = [
    'serve',
    '--workspace',
    join(folder, 'workspace.sqlite'),
    '--folder',
    samples,
    '--folder',
    folder,
  ]
  const child = spawn(process.execPath, [launcher, ...words, '--json'], {
    stdio: ['ignore', 'pipe', 'inherit'],
  })
  const address = await firstAddress(child)
  const stop = async () => {
    // One that a signal ended has no code, and ends no second time.
    if (child.exitCode === null && child.signalCode === null) {
      const ended = once(child, 'exit')
      child.kill('SIGINT')
      await ended
    }
    rmSync(folder, { recursive: true, force: true })
  }
  return { address, folder, pid: child.pid!, stop }
}

async function firstAddress(child: ChildProcess): Promise<string> {
  for await (const line of createInterface({ input: child.stdout! })) {
    return (JSON.parse(line) as { address: string }).address
  }
  throw new Error('whorl serve ended before it said its address')
}

/** Runs one command of the program to its end. */
export async function whorl(...words: string[]): Promise<{ code: number; out: string; error: string }> {
  const child = spawn(process.execPath, [launcher, ...words], { env: { ...process.env, CI: 'true' } })
  let out = ''
  let error = ''
  child.stdout.on('data', chunk => (out += chunk))
  child.stderr.on('data', chunk => (error += chunk))
  const [code] = (await once(child, 'close')) as [number]
  return { code, out, error }
}
