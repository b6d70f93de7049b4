import { tmpdir } from 'node:os'
import { afterEach, describe, expect, it, vi } from 'vitest'
import { type CallName, calls, type Host, type HostEvent } from '../../../core/contract/calls.ts'
import { WhorlError } from '../../../core/contract/problem.ts'
import { startLoopback } from '../../../electron/loopback/loopback.ts'
import { runDesktop } from '../../../electron/main/desktop.ts'
import { bridgeOf } from '../../../electron/preload/bridge-of.ts'
import type { AppHost } from '../../../electron/service/app-host.ts'
import { desktopHost } from '../../../renderer/host/desktop-host.ts'
import { loopbackHost } from '../../../renderer/host/loopback-host.ts'
import { enter, stubBrowser } from '../loopback/open-browser.ts'
import { standInElectron } from '../main/stand-in-electron.ts'
import { inputs, standInHost } from './stand-in-host.ts'

/** The page's own way to the host, through a shell, as `Host` says; the same tests run through both. */
type Shell = { name: string; open(host: AppHost): Promise<Host> }

const closing: (() => Promise<void>)[] = []
afterEach(async () => {
  vi.unstubAllGlobals()
  for (const close of closing.splice(0)) await close()
})

const loopback: Shell = {
  name: 'loopback',
  async open(host) {
    const server = await startLoopback(host, { page: new Map() })
    closing.push(server.close)
    stubBrowser(await enter(server))
    return loopbackHost()
  },
}

const desktop: Shell = {
  name: 'desktop',
  async open(host) {
    const { electron, renderer, seen } = standInElectron()
    const options = { stateFolder: tmpdir(), preload: '/preload.cjs', page: () => new Map() }
    await runDesktop(electron, { ...options, openHost: async () => host })
    vi.stubGlobal('fetch', (url: string, init: RequestInit) =>
      seen.protocol!(new Request(new URL(url, 'whorl://app/'), init)),
    )
    const ipc = renderer() as unknown as Parameters<typeof bridgeOf>[0]
    return desktopHost(bridgeOf(ipc, { getPathForFile: file => `/clips/${file.name}` }))
  },
}

describe.each([loopback, desktop])('the $name shell', ({ name: shellName, open }) => {
  it('serves every call of the table, with the input that was asked', async () => {
    const { host, heard } = standInHost()
    const page = await open(host)
    for (const name of Object.keys(calls) as CallName[]) {
      expect(await page.call(name, inputs[name] as never)).toEqual({ name, input: inputs[name] })
    }
    expect(heard.map(({ name }) => name)).toEqual(Object.keys(calls))
  })

  it('hands a named problem back with its words', async () => {
    const { host } = standInHost({
      'clips.open': async () => {
        throw new WhorlError('file-not-found', { path: '/gone.mp4' })
      },
    })
    const call = (await open(host)).call('clips.open', { clipId: 'c' })
    await expect(call).rejects.toMatchObject({
      problem: { schema: 'whorl.error/1', code: 'file-not-found', message: 'There is no file at /gone.mp4.' },
    })
  })

  it('calls anything else that goes wrong internal, without its stack', async () => {
    const { host } = standInHost({
      'clips.open': async () => {
        throw new TypeError('x is not a function')
      },
    })
    const problem = await (await open(host)).call('clips.open', { clipId: 'c' }).catch(e => e.problem)
    expect(problem).toMatchObject({ code: 'internal' })
    expect(JSON.stringify(problem)).not.toContain('.ts:')
  })

  it.each([
    ['a field of the wrong type', 'clips.open', { clipId: 7 }],
    ['a missing field', 'clips.open', {}],
    ['a field that nobody asked for', 'sessions.list', { all: true }],
    ['an edit of no known kind', 'hits.edit', { hitId: 'h', edit: { kind: 'explode' } }],
    ['no input', 'sessions.list', null],
    ['a list instead of an object', 'sessions.list', []],
    ['more paths than one call takes', 'clips.add', { sessionId: 's', paths: Array(1001).fill('/a.mp4') }],
  ])('refuses %s before any handler sees it', async (_, name, input) => {
    const { host, heard } = standInHost()
    const call = (await open(host)).call(name as CallName, input as never)
    await expect(call).rejects.toMatchObject({ problem: { code: 'bad-payload' } })
    expect(heard).toEqual([])
  })

  it.each(['no.such', 'constructor', '__proto__', 'toString', 'sessions.list/..', ''])(
    'refuses the unknown call “%s”',
    async name => {
      const { host, heard } = standInHost()
      const call = (await open(host)).call(name as CallName, {} as never)
      await expect(call).rejects.toMatchObject({ problem: { schema: 'whorl.error/1' } })
      expect(heard).toEqual([])
    },
  )

  it('tells progress to the caller that waits for it, and to no other', async () => {
    let finish = () => {}
    const told = new Promise<void>(resolve => {
      finish = resolve
    })
    const { host, listeners } = standInHost({
      'clips.add': async (_, { progress }) => {
        progress({ what: 'a.mp4', done: 0, total: 2 })
        progress({ what: 'b.mp4', done: 2, total: 2 })
        await told
        return { clips: [] }
      },
    })
    const page = await open(host)
    const mine: unknown[] = []
    const other: unknown[] = []
    const stop = page.on(() => {})
    await vi.waitFor(() => expect(listeners()).toBe(1), 30_000)
    const add = page.call('clips.add', inputs['clips.add'], { onProgress: said => mine.push(said) })
    const list = page.call('sessions.list', {}, { onProgress: said => other.push(said) })
    await list
    await vi.waitFor(() => expect(mine.at(-1)).toEqual({ what: 'b.mp4', done: 2, total: 2 }), 30_000)
    finish()
    await add
    expect(other).toEqual([])
    stop()
  })

  it('cancels the work when the caller gives up', async () => {
    const aborted = vi.fn()
    const { host, heard } = standInHost({
      'clips.prepare': (_, { signal }) =>
        new Promise((_resolve, reject) =>
          signal.addEventListener('abort', () => {
            aborted()
            reject(new WhorlError('cancelled', { what: 'Decoding' }))
          }),
        ),
    })
    const page = await open(host)
    const giveUp = new AbortController()
    const call = page.call('clips.prepare', inputs['clips.prepare'], { signal: giveUp.signal })
    call.catch(() => {})
    await vi.waitFor(() => expect(heard).toHaveLength(1), 30_000)
    giveUp.abort()
    await expect(call).rejects.toThrow()
    await vi.waitFor(() => expect(aborted).toHaveBeenCalledOnce(), 30_000)
  })

  it('passes on what the host says unasked, until nobody listens', async () => {
    const { host, listeners } = standInHost()
    const page = await open(host)
    const heard: HostEvent[] = []
    const stop = page.on(event => heard.push(event))
    await vi.waitFor(() => expect(listeners()).toBe(1), 30_000)
    host.bus.say({ kind: 'changed', what: 'hits', id: 'h' })
    await vi.waitFor(() => expect(heard).toEqual([{ kind: 'changed', what: 'hits', id: 'h' }]), 30_000)
    stop()
    host.bus.say({ kind: 'changed', what: 'clips', id: null })
    await new Promise(resolve => setTimeout(resolve, 20))
    expect(heard).toHaveLength(1)
  })

  it('carries a frame’s picture and its size', async () => {
    const page = await open(standInHost().host)
    const picture = await page.frame('clip', 3, { maxWidthPx: 32 })
    expect(picture).toMatchObject({ widthPx: 32, heightPx: 4 })
    expect([...new Set(picture.data)]).toEqual([7])
    expect(picture.data).toHaveLength(192)
    expect(await page.frame('clip', 3)).toMatchObject({ widthPx: 64 })
  })

  it('hands the problem with a frame back with its words', async () => {
    const page = await open(standInHost().host)
    await expect(page.frame('clip', 100)).rejects.toMatchObject({ problem: { code: 'frame-outside-clip' } })
  })

  it('finds the path of a dropped file', async () => {
    const { host, received } = standInHost()
    const page = await open(host)
    const file = new File(['bytes'], 'a “b” 🏓.mp4')
    expect(await page.pathOf(file)).toBe('/clips/a “b” 🏓.mp4')
    if (shellName === 'loopback') expect(received).toEqual([{ name: file.name, bytes: Buffer.from('bytes') }])
  })
})
