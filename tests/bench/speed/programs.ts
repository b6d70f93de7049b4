import { spawn } from 'node:child_process'
import { once } from 'node:events'
import { copyFileSync, mkdtempSync, readdirSync, rmSync } from 'node:fs'
import { tmpdir } from 'node:os'
import { join } from 'node:path'
import { createInterface } from 'node:readline'
import { build } from '../../../electron/build.mjs'
import { places } from '../../../electron/service/places.ts'
import { root } from '../../e2e/served.ts'
import { type Line, sideBySide } from './side-by-side.ts'

const launcher = join(root, 'electron/cli/launch.mjs')

/** Starts a program, waits for its first line where one is wanted, and for its end. */
async function ran(words: string[], untilFirstLine = false): Promise<void> {
  const [program, ...rest] = words
  const child = spawn(program!, rest, { stdio: ['ignore', 'pipe', 'inherit'] })
  const ended = once(child, 'close')
  if (untilFirstLine) {
    for await (const _ of createInterface({ input: child.stdout })) break
    child.kill('SIGKILL')
  } else child.stdout.resume()
  const [code] = (await ended) as [number | null]
  if (!untilFirstLine && code !== 0) throw new Error(`${words.join(' ')} ended with ${code}.`)
}

const start: Line = {
  name: 'start',
  what: 'The program started until its page can be opened',
  beside: 'the runtime started and ended',
  measure: async () => {
    await build()
    const folder = mkdtempSync(join(tmpdir(), 'whorl-bench-'))
    const serve = [launcher, 'serve', '--workspace', join(folder, 'workspace.sqlite'), '--json']
    try {
      await ran([process.execPath, ...serve], true)
      return await sideBySide(
        () => ran([process.execPath, ...serve], true),
        () => ran([process.execPath, '--eval', '0']),
        { clock: 'wall', repeats: 7 },
      )
    } finally {
      rmSync(folder, { recursive: true, force: true })
    }
  },
}

/** On one core the program is held to the first one, its decoders and workers with it (Linux's taskset). */
const batch = (clips: number, repeats: number): Line => ({
  name: 'batch',
  what: `${clips} sample clips through whorl read, two cores`,
  beside: 'the same on one core',
  measure: async () => {
    await build()
    const folder = mkdtempSync(join(tmpdir(), 'whorl-bench-'))
    const samples = readdirSync(places.samples).filter(name => name.endsWith('.mp4'))
    const paths = Array.from({ length: clips }, (_, i) => {
      const path = join(folder, `${i}.mp4`)
      copyFileSync(join(places.samples, samples[i % samples.length]!), path)
      return path
    })
    const read = [process.execPath, launcher, 'read', ...paths, '--json']
    try {
      return await sideBySide(
        () => ran(['taskset', '-c', '0,1', ...read]),
        () => ran(['taskset', '-c', '0', ...read]),
        { clock: 'wall', repeats },
      )
    } finally {
      rmSync(folder, { recursive: true, force: true })
    }
  },
})

export const programs: Line[] = process.platform === 'linux' ? [start, batch(14, 3)] : [start]
