import { mkdtempSync, readdirSync, readFileSync, rmSync, writeFileSync } from 'node:fs'
import { tmpdir } from 'node:os'
import { dirname, join } from 'node:path'
import { afterEach, beforeEach, expect, it } from 'vitest'
import { receive, safeName } from '../../../electron/service/receive.ts'

let folder: string
const workspace = () => join(folder, 'workspace.sqlite')
const signal = new AbortController().signal
async function* bytesOf(...chunks: string[]) {
  for (const chunk of chunks) yield Buffer.from(chunk)
}

beforeEach(() => {
  folder = mkdtempSync(join(tmpdir(), 'whorl-receive-'))
})
afterEach(() => rmSync(folder, { recursive: true }))

it('writes a dropped file into the folder clips beside the workspace', async () => {
  const path = await receive(workspace(), { name: 'serve 1.mp4', bytes: bytesOf('ab', 'cd'), signal })
  expect(path).toBe(join(folder, 'clips', 'serve 1.mp4'))
  expect(readFileSync(path, 'utf8')).toBe('abcd')
})

it('gives a second file of the same name another name', async () => {
  const names = []
  for (const text of ['one', 'two', 'three'])
    names.push(await receive(workspace(), { name: 'a.mp4', bytes: bytesOf(text), signal }))
  expect(names.map(path => path.slice(dirname(path).length + 1))).toEqual(['a.mp4', 'a 2.mp4', 'a 3.mp4'])
  expect(names.map(path => readFileSync(path, 'utf8'))).toEqual(['one', 'two', 'three'])
})

it('leaves nothing behind when the file breaks off', async () => {
  async function* broken() {
    yield Buffer.from('half')
    throw new Error('the page is gone')
  }
  await expect(receive(workspace(), { name: 'a.mp4', bytes: broken(), signal })).rejects.toThrow(
    'the page is gone',
  )
  expect(readdirSync(join(folder, 'clips'))).toEqual([])
})

it('leaves nothing behind when it is cancelled', async () => {
  const cancel = new AbortController()
  async function* slow() {
    yield Buffer.from('half')
    cancel.abort()
    yield Buffer.from('more')
    await new Promise(() => {})
  }
  const receiving = receive(workspace(), { name: 'a.mp4', bytes: slow(), signal: cancel.signal })
  await expect(receiving).rejects.toMatchObject({ code: 'cancelled' })
  expect(readdirSync(join(folder, 'clips'))).toEqual([])
})

it.each([
  ['../../etc/cron.d/x', 'x'],
  ['..\\..\\windows\\x.mp4', 'x.mp4'],
  ['/etc/passwd', 'passwd'],
  ['..', 'clip-'],
  ['.hidden.mp4', 'hidden.mp4'],
  ['-rf.mp4', 'rf.mp4'],
  ['a\u0000b\n.mp4', 'a_b_.mp4'],
  ['con.mp4', 'clip-con.mp4'],
  ['a:b|c?.mp4', 'a_b_c_.mp4'],
  ['.mp4', 'mp4'],
  ['ball 🏓 “fast”.mp4', 'ball 🏓 “fast”.mp4'],
  ['a.mp4/', 'a.mp4'],
  ['x.mp4\u0000.sh', 'x.mp4_.sh'],
])('makes the name %j safe', (name, safe) => {
  expect(safeName(name)).toBe(safe)
})

it('keeps names short enough for a file system, and characters whole', async () => {
  const name = safeName(`${'🏓'.repeat(300)}.mp4`)
  expect(Buffer.byteLength(name)).toBeLessThan(200)
  expect(name).toMatch(/^(🏓)+\.mp4$/u)
  writeFileSync(join(folder, name), '')
})
