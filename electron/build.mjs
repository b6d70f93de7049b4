import { createHash } from 'node:crypto'
import {
  closeSync,
  cpSync,
  existsSync,
  mkdirSync,
  openSync,
  readdirSync,
  readFileSync,
  renameSync,
  rmSync,
  statSync,
  writeFileSync,
  writeSync,
} from 'node:fs'
import { dirname, join } from 'node:path'
import { setTimeout as sleep } from 'node:timers/promises'
import { fileURLToPath } from 'node:url'

/** The checkout's folder, with a separator at its end. */
const checkout = fileURLToPath(new URL('..', import.meta.url))
const sources = ['core', 'electron', 'renderer', 'package.json', 'package-lock.json', 'tsconfig.json']
const configs = ['electron/vite.host.ts', 'electron/vite.preload.ts', 'renderer/vite.config.ts']
/** Pieces of earlier builds are left for programs that still run from them. */
const keepOldForMilliseconds = 2 * 3600 * 1000

/** What a build is made from: path, size and time of every source, as one hash. */
function fingerprint(root) {
  const hash = createHash('sha256')
  const look = path => {
    const stat = statSync(join(root, path), { throwIfNoEntry: false })
    if (stat === undefined) return
    if (stat.isDirectory()) for (const name of readdirSync(join(root, path)).sort()) look(`${path}/${name}`)
    else hash.update(`${path} ${stat.size} ${stat.mtimeMs}\n`)
  }
  for (const source of sources) look(source)
  return hash.digest('hex')
}

const isFresh = (dist, print) =>
  existsSync(join(dist, 'built-from')) && readFileSync(join(dist, 'built-from'), 'utf8') === print

/**
 * Builds host and page into dist/ unless they are up to date.
 *
 * Built beside and laid over what is there, file by file, entries last: a program that runs meanwhile
 * finds every piece it may still load, one that starts meanwhile never meets half a build, and of two
 * builds at once the second waits and finds the work done. `make` and `root` are for tests.
 */
export async function build(make = makeWithVite, root = checkout) {
  const dist = join(root, 'dist')
  if (isFresh(dist, fingerprint(root))) return
  mkdirSync(dist, { recursive: true })
  const unlock = await lock(join(dist, 'building'))
  const beside = join(root, `dist-${process.pid}`)
  try {
    const print = fingerprint(root)
    if (isFresh(dist, print)) return
    rmSync(beside, { recursive: true, force: true })
    await make(beside)
    await layOver(beside, dist)
    writeFileSync(join(beside, 'built-from'), print)
    await moved(join(beside, 'built-from'), join(dist, 'built-from'))
  } finally {
    rmSync(beside, { recursive: true, force: true })
    unlock()
  }
}

async function makeWithVite(beside) {
  const { build: vite } = await import('vite')
  // the same build whoever asks for it: a test run says NODE_ENV=test, and libraries would heed that
  const { NODE_ENV: before } = process.env
  process.env.NODE_ENV = 'production'
  try {
    for (const config of configs) {
      const outDir = join(beside, config.startsWith('renderer') ? 'renderer' : 'host')
      await vite({ configFile: join(checkout, config), logLevel: 'error', build: { outDir } })
    }
  } finally {
    if (before === undefined) delete process.env.NODE_ENV
    else process.env.NODE_ENV = before
  }
}

/** Files of a folder, relative, deepest first: pieces in folders come before the entries that load them. */
function filesOf(folder, inside = '') {
  const entries = readdirSync(join(folder, inside), { withFileTypes: true })
  const folders = entries.filter(entry => entry.isDirectory())
  const files = entries.filter(entry => !entry.isDirectory())
  return [
    ...folders.flatMap(entry => filesOf(folder, join(inside, entry.name))),
    ...files.map(entry => join(inside, entry.name)),
  ]
}

async function layOver(beside, dist) {
  const fresh = filesOf(beside)
  for (const file of fresh) {
    mkdirSync(dirname(join(dist, file)), { recursive: true })
    await moved(join(beside, file), join(dist, file))
  }
  const kept = new Set([...fresh, 'built-from', 'building'])
  for (const file of filesOf(dist)) {
    const old = Date.now() - statSync(join(dist, file)).mtimeMs > keepOldForMilliseconds
    if (!kept.has(file) && old) rmSync(join(dist, file), { force: true })
  }
}

/** A rename that is patient with scanners and file locks, and copies where a rename is not possible. */
async function moved(from, to) {
  for (let attempt = 0; ; attempt++) {
    try {
      return renameSync(from, to)
    } catch (error) {
      if (error.code === 'EXDEV') return cpSync(from, to)
      if (error.code === 'EISDIR' || error.code === 'ENOTEMPTY') rmSync(to, { recursive: true, force: true })
      else if (!['EPERM', 'EACCES', 'EBUSY'].includes(error.code) || attempt === 8) throw error
      else await sleep(25 * 2 ** attempt)
    }
  }
}

/**
 * Waits until no other build runs, then holds the lock; one left by a killed build is taken over. Should
 * two waiters take over at the same instant, both build: twice the work, the same files.
 */
async function lock(path) {
  for (;;) {
    try {
      const file = openSync(path, 'wx')
      writeSync(file, String(process.pid))
      closeSync(file)
      return () => rmSync(path, { force: true })
    } catch (error) {
      if (error.code !== 'EEXIST') throw error
      if (isAbandoned(path)) rmSync(path, { force: true })
      else await sleep(100)
    }
  }
}

function isAbandoned(path) {
  const age = Date.now() - (statSync(path, { throwIfNoEntry: false })?.mtimeMs ?? Date.now())
  if (age > 5 * 60_000) return true
  let pid = Number.NaN
  try {
    pid = Number(readFileSync(path, 'utf8') || Number.NaN)
    process.kill(pid, 0)
    return false
  } catch (error) {
    return error.code === 'ESRCH' || (Number.isNaN(pid) && age > 10_000)
  }
}

if (process.argv[1] === fileURLToPath(import.meta.url)) await build()
