import {
  existsSync,
  mkdirSync,
  mkdtempSync,
  readdirSync,
  readFileSync,
  rmSync,
  utimesSync,
  writeFileSync,
} from 'node:fs'
import { tmpdir } from 'node:os'
import { join } from 'node:path'
import { setTimeout as sleep } from 'node:timers/promises'
import { afterEach, beforeEach, expect, it } from 'vitest'
import { build } from '../../../electron/build.mjs'

let root: string
let built: number
const dist = (...path: string[]) => join(root, 'dist', ...path)

beforeEach(() => {
  root = mkdtempSync(join(tmpdir(), 'whorl-build-'))
  built = 0
  mkdirSync(join(root, 'core'))
  writeFileSync(join(root, 'core', 'a.ts'), '1')
})
afterEach(() => rmSync(root, { recursive: true }))

/** A build that takes a while: an entry and the piece that it loads, both named by the source's text. */
async function make(folder: string): Promise<void> {
  const text = readFileSync(join(root, 'core', 'a.ts'), 'utf8')
  built++
  await sleep(150)
  mkdirSync(join(folder, 'host', 'pieces'), { recursive: true })
  writeFileSync(join(folder, 'host', 'pieces', `p-${text}.js`), text)
  writeFileSync(join(folder, 'host', 'cli.js'), `pieces/p-${text}.js`)
}
/** What a program sees that starts now: its entry, and the text of the piece the entry loads. */
const program = () => readFileSync(dist('host', readFileSync(dist('host', 'cli.js'), 'utf8')), 'utf8')
const change = (text: string) => writeFileSync(join(root, 'core', 'a.ts'), text)

it('builds once and then only when a source has changed', async () => {
  await build(make, root)
  await build(make, root)
  expect([built, program()]).toEqual([1, '1'])
  change('22')
  await build(make, root)
  expect([built, program()]).toEqual([2, '22'])
})

it('builds again when a source is gone', async () => {
  writeFileSync(join(root, 'core', 'b.ts'), '')
  await build(make, root)
  rmSync(join(root, 'core', 'b.ts'))
  await build(make, root)
  expect(built).toBe(2)
})

it('builds once for all who ask at the same time', async () => {
  await Promise.all([build(make, root), build(make, root), build(make, root)])
  expect([built, program()]).toEqual([1, '1'])
})

it('leaves the pieces of a running program, and those of long ago not', async () => {
  await build(make, root)
  change('22')
  await build(make, root)
  expect(readFileSync(dist('host', 'pieces', 'p-1.js'), 'utf8')).toBe('1')
  const longAgo = new Date(Date.now() - 48 * 3600 * 1000)
  utimesSync(dist('host', 'pieces', 'p-1.js'), longAgo, longAgo)
  change('333')
  await build(make, root)
  expect(readdirSync(dist('host', 'pieces')).sort()).toEqual(['p-22.js', 'p-333.js'])
})

it('never shows half a build to a program that starts meanwhile', async () => {
  await build(make, root)
  change('22')
  const building = build(make, root)
  const seen = new Set<string>()
  let done = false
  void building.then(() => {
    done = true
  })
  while (!done) {
    seen.add(program())
    await sleep(1)
  }
  expect([...seen, program()]).toEqual(expect.arrayContaining(['1', '22']))
})

it('leaves the last build as it is when a new one fails, and builds again the next time', async () => {
  await build(make, root)
  change('22')
  const failing = build(async () => {
    throw new Error('a.ts does not parse')
  }, root)
  await expect(failing).rejects.toThrow('a.ts does not parse')
  expect(program()).toBe('1')
  expect(readdirSync(root).filter(name => name.startsWith('dist-'))).toEqual([])
  await build(make, root)
  expect(program()).toBe('22')
})

it('takes over from a build that was killed', async () => {
  mkdirSync(dist())
  // above the largest process id of any system (Linux: 4 194 304, proc(5))
  writeFileSync(dist('building'), '99999999')
  await build(make, root)
  expect(program()).toBe('1')
  expect(existsSync(dist('building'))).toBe(false)
})

it('waits for one that runs', async () => {
  mkdirSync(dist())
  writeFileSync(dist('building'), String(process.pid))
  const building = build(make, root)
  await sleep(300)
  expect(built).toBe(0)
  rmSync(dist('building'))
  await building
  expect(program()).toBe('1')
})
