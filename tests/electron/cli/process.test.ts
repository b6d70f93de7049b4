import { type ChildProcess, spawn } from 'node:child_process'
import { once } from 'node:events'
import { existsSync, mkdtempSync, readFileSync, rmSync, writeFileSync } from 'node:fs'
import { tmpdir } from 'node:os'
import { join } from 'node:path'
import { createInterface } from 'node:readline'
import { text } from 'node:stream/consumers'
import { afterEach, beforeEach, describe, expect, it } from 'vitest'
import { readingDocumentSchema } from '../../../core/contract/reading.ts'

const checkout = join(import.meta.dirname, '../../..')
const launch = join(checkout, 'electron', 'cli', 'launch.mjs')
const samples = join(checkout, 'sample-clips')
const clicks = 'topspin-240-a.clicks.json'

let folder: string
const children: ChildProcess[] = []
beforeEach(() => {
  folder = mkdtempSync(join(tmpdir(), 'whorl-cli-'))
})
afterEach(() => {
  for (const child of children.splice(0)) child.kill('SIGKILL')
  rmSync(folder, { recursive: true, force: true })
})

function start(program: string, words: string[], cwd = folder, env: NodeJS.ProcessEnv = {}) {
  const child = spawn(program, words, { cwd, env: { ...process.env, HOME: folder, ...env } })
  children.push(child)
  const ended = once(child, 'close') as Promise<[number | null, NodeJS.Signals | null]>
  return { child, out: text(child.stdout), err: text(child.stderr), ended }
}
const whorl = (words: string[], cwd?: string) => start(process.execPath, [launch, ...words], cwd)

describe('whorl as a process', () => {
  it('prints only JSON through npm, and takes file names from where the person stands', async () => {
    const { out, err, ended } = start(
      'npm',
      ['run', '--silent', 'whorl', '--', 'fit', clicks, '--json'],
      samples,
    )
    expect(await err).toBe('')
    expect((await ended)[0]).toBe(0)
    expect(readingDocumentSchema.parse(JSON.parse(await out)).readings[0]!.rpm).toBeGreaterThan(0)
  })

  it('reads standard input', async () => {
    const { child, out, ended } = whorl(['fit', '-', '--json'])
    child.stdin!.end(readFileSync(join(samples, clicks)))
    expect((await ended)[0]).toBe(0)
    expect(JSON.parse(await out).schema).toBe('whorl.reading/1')
  })

  it('ends with 1 for a file and with 2 for words that it cannot use', async () => {
    const [file, words] = [whorl(['fit', 'none.json']), whorl(['fit', '--fast'])]
    expect((await file.ended)[0]).toBe(1)
    expect((await words.ended)[0]).toBe(2)
    expect((await file.err).trimEnd().split('\n')).toHaveLength(1)
  })

  it('ends quietly when nobody reads on', async () => {
    const marks = Array.from({ length: 60 }, () => join(samples, clicks))
    const { child, out, err, ended } = whorl(['fit', '--json', ...marks])
    out.catch(() => {})
    child.stdout!.once('data', () => child.stdout!.destroy())
    await ended
    expect(await err).toBe('')
  })
})

describe('whorl serve', () => {
  async function serving(words: string[] = []) {
    const child = spawn(process.execPath, [launch, 'serve', '--json', ...words], {
      cwd: folder,
      env: { ...process.env, HOME: folder, XDG_DATA_HOME: join(folder, 'data') },
    })
    children.push(child)
    const ended = once(child, 'close') as Promise<[number | null, NodeJS.Signals | null]>
    const [line] = (await once(createInterface(child.stdout), 'line')) as [string]
    return { child, ended, ...(JSON.parse(line) as { address: string; workspace: string }) }
  }

  it('serves the built page at its secret address and ends cleanly on Ctrl-C', async () => {
    const { child, ended, address, workspace } = await serving()
    const { origin } = new URL(address)
    expect((await fetch(origin)).status).toBe(401)
    const entered = await fetch(address, { redirect: 'manual' })
    const cookie = entered.headers.get('set-cookie')!.split(';')[0]!
    const page = await (await fetch(origin, { headers: { cookie } })).text()
    expect(page).toContain('<div id="root">')
    const [, script] = /src="\.?(\/assets\/[^"]+\.js)"/.exec(page)!
    expect((await fetch(origin + script, { headers: { cookie } })).headers.get('content-type')).toMatch(
      /javascript/,
    )
    const answer = await fetch(`${origin}/call/workspace.info`, {
      method: 'POST',
      body: '{}',
      headers: { cookie, origin, 'x-whorl-call': 'one' },
    })
    expect(await answer.json()).toMatchObject({ shell: 'loopback', empty: true, file: workspace })
    child.kill('SIGINT')
    expect(await ended).toEqual([0, null])
    await expect(fetch(origin)).rejects.toThrow()
  })

  it('ends while a page still listens', async () => {
    const { child, ended, address } = await serving(['--workspace', 'mine.sqlite'])
    const { origin } = new URL(address)
    const entered = await fetch(address, { redirect: 'manual' })
    const cookie = entered.headers.get('set-cookie')!.split(';')[0]!
    const events = await fetch(`${origin}/events`, { headers: { cookie } })
    child.kill('SIGTERM')
    expect(await ended).toEqual([0, null])
    await expect(events.text()).rejects.toThrow()
  })

  it('ends with 1 on a folder that is none', async () => {
    const { ended, err } = whorl(['serve', '--folder', folder, '--folder', 'none'])
    expect((await ended)[0]).toBe(1)
    expect(await err).toContain(`There is no file at ${join(folder, 'none')}`)
    expect(existsSync(join(folder, '.local'))).toBe(false)
  })

  it('ends with 1 on a file that is no workspace, and leaves it alone', async () => {
    writeFileSync(join(folder, 'notes.txt'), 'my notes, long enough to be no empty file')
    const { ended, err } = whorl(['serve', '--workspace', 'notes.txt'])
    expect((await ended)[0]).toBe(1)
    expect(await err).toContain('notes.txt is not a Whorl workspace')
    expect(readFileSync(join(folder, 'notes.txt'), 'utf8')).toBe('my notes, long enough to be no empty file')
  })
})

describe('npm start', () => {
  it('opens the same app on loopback where no window can be shown', async () => {
    if (process.platform !== 'linux') {
      console.log('Only Linux can be without a display: opening without a window was NOT tried.')
      return
    }
    const words = [join(checkout, 'electron', 'start.mjs'), '--workspace', 'mine.sqlite']
    const child = spawn(process.execPath, words, {
      cwd: folder,
      env: { ...process.env, HOME: folder, DISPLAY: '', WAYLAND_DISPLAY: '' },
    })
    children.push(child)
    const ended = once(child, 'close')
    let address = ''
    for await (const line of createInterface(child.stdout)) {
      address = line.trim()
      if (address.startsWith('http://127.0.0.1:')) break
    }
    expect((await fetch(address, { redirect: 'manual' })).status).toBe(303)
    child.kill('SIGINT')
    expect(await ended).toEqual([0, null])
    expect(existsSync(join(folder, 'mine.sqlite'))).toBe(true)
  })
})
