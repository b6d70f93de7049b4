import assert from 'node:assert/strict'
import { execFileSync, spawn } from 'node:child_process'
import { once } from 'node:events'
import { copyFileSync, mkdirSync, mkdtempSync, rmSync } from 'node:fs'
import { tmpdir } from 'node:os'
import { dirname, join } from 'node:path'
import { setTimeout as pause } from 'node:timers/promises'
import { fileURLToPath } from 'node:url'
import { build } from 'vite'
import { seededRandom } from '../../../core/numerics/seeded-random.ts'
import { build as buildProgram } from '../../../electron/build.mjs'
import { checkExport, checkMarking, checkMigration, checkReading, type Written } from './check.ts'
import { ofTheFirstForm, readClips, readyToExport, readyToMark, readyToRead } from './prepare.ts'

const jobs = ['marking', 'export', 'migration', 'reading'] as const
export type KillFigures = {
  moments: number
  /** Kills that came before the job's first word of work: while the host started or opened its files. */
  whileOpening: number
  clicksSaid: number
  clicksThere: number
  roundsBegun: number
  filesMigrated: number
  /** Clips read to the end and kept, over all workspaces that were begun. */
  clipsRead: number
  /** Decoders that outlived their host. */
  orphans: number
}

/**
 * Kills the host (SIGKILL) at so many moments of its jobs, in turn, and looks at what it left each time. The
 * moments come from the seed; what the host is just doing then is up to the machine. Throws at the first
 * thing that is lost or broken, and leaves the files for a look.
 */
export async function killAtMoments(count: number, seed: number, say: (line: string) => void = () => {}) {
  const built = fileURLToPath(new URL(`../../../dist-faults-${process.pid}/`, import.meta.url))
  await buildProgram()
  await build({
    configFile: false,
    logLevel: 'error',
    build: { ssr: fileURLToPath(new URL('./host-child.ts', import.meta.url)), outDir: built },
  })
  const folder = mkdtempSync(join(tmpdir(), 'whorl-kills-'))
  try {
    const figures = await killing(join(built, 'host-child.js'), folder, count, seed, say)
    rmSync(folder, { recursive: true })
    return figures
  } catch (error) {
    say(`The files are left in ${folder}.`)
    throw error
  } finally {
    rmSync(built, { recursive: true, force: true })
  }
}

async function killing(
  program: string,
  folder: string,
  count: number,
  seed: number,
  say: (line: string) => void,
) {
  const random = seededRandom(seed)
  const marking = readyToMark(folder)
  const exporting = join(folder, 'export')
  mkdirSync(exporting)
  readyToExport(exporting)
  const old = join(folder, 'old.sqlite')
  ofTheFirstForm(old)
  const figures: KillFigures = {
    moments: 0,
    whileOpening: 0,
    clicksSaid: 0,
    clicksThere: 0,
    roundsBegun: 0,
    filesMigrated: 0,
    clipsRead: 0,
    orphans: 0,
  }
  let reading = readyToRead(join(folder, 'reading-0'))
  let read = 0
  let round = 0
  let written: Written = { sqlite: null, csv: null }
  for (let moment = 0; moment < count; moment++) {
    const job = jobs[moment % jobs.length]!
    // One kill in four comes while the host starts and opens its files, the others in the midst of its work.
    const opening = random() < 0.25
    // A clip takes seconds, a click milliseconds.
    const delayMs = random() * (opening ? 120 : job === 'reading' ? 3000 : 250)
    const path = { marking, reading, export: exporting, migration: join(folder, `migration-${moment}`) }[job]
    if (job === 'migration') copies(old, path)
    const first = { marking: figures.clicksThere + 1, export: round + 1, migration: 0, reading: 0 }[job]
    // Every other reading is let come to a clip that is done, so that what is kept of it is looked at too.
    const untilDone = !opening && job === 'reading' && Math.floor(moment / jobs.length) % 2 === 1
    const isAtWork = (words: string[]) =>
      untilDone ? idsOf(words, 'done').length > read : opening || words.length > 0
    const words = await workAndKill([program, job, path, String(first)], isAtWork, delayMs)
    const last = Number(words.at(-1))
    if (words.length === 0) figures.whileOpening++
    if (job === 'marking') {
      figures.clicksSaid = words.length > 0 ? last : figures.clicksThere
      figures.clicksThere = checkMarking(path, figures.clicksSaid)
    }
    if (job === 'export') {
      round = words.length > 0 ? last : round
      figures.roundsBegun = round
      written = checkExport(path, words.map(Number), written)
    }
    if (job === 'migration') {
      figures.filesMigrated += words.length
      checkMigration(path, words.length)
      rmSync(path, { recursive: true })
    }
    if (job === 'reading') {
      const done = checkReading(path, idsOf(words, 'done'))
      figures.clipsRead += done - read
      figures.orphans += await decodersOf(dirname(path))
      assert.equal(figures.orphans, 0, 'a decoder outlived its host')
      read = done
      if (done === readClips) {
        reading = readyToRead(join(folder, `reading-${moment}`))
        read = 0
      }
    }
    figures.moments++
    if (figures.moments % 20 === 0) say(`${figures.moments} of ${count} kills, all whole`)
  }
  return figures
}

const idsOf = (words: readonly string[], state: string): string[] =>
  words.filter(word => word.startsWith(`${state} `)).map(word => word.slice(state.length + 1))

/** Decoders at work on files of this folder, once those whose reader is gone had time to see it. */
async function decodersOf(folder: string): Promise<number> {
  for (let patience = 100; ; patience--) {
    const lines = execFileSync('ps', ['-eo', 'stat=,args=']).toString().split('\n')
    const found = lines.filter(
      line => !line.startsWith('Z') && /ff(mpeg|probe)/.test(line) && line.includes(folder),
    )
    if (found.length === 0 || patience === 0) return found.length
    await pause(100)
  }
}

const filesToMigrate = 12

function copies(file: string, folder: string): void {
  mkdirSync(folder)
  for (let n = 10; n < 10 + filesToMigrate; n++) copyFileSync(file, join(folder, `${n}.sqlite`))
}

/** Runs the host and kills it a while after it is at work; answers the words that it said after "begin". */
async function workAndKill(
  program: string[],
  isAtWork: (words: string[]) => boolean,
  delayMs: number,
): Promise<string[]> {
  const host = spawn(process.execPath, program, { stdio: ['ignore', 'pipe', 'inherit'] })
  let said = ''
  const words = () => said.split('\n').slice(1, -1)
  host.stdout.setEncoding('utf8')
  const ended = once(host, 'close')
  const working = new Promise<void>(resolve => {
    host.stdout.on('data', data => {
      said += data
      if (said.includes('\n') && isAtWork(words())) resolve()
    })
  })
  await Promise.race([working, ended])
  await pause(delayMs)
  host.kill('SIGKILL')
  await ended
  return words()
}
