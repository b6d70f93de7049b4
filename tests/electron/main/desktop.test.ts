import { existsSync, mkdtempSync, readFileSync, rmSync } from 'node:fs'
import { tmpdir } from 'node:os'
import { join } from 'node:path'
import { afterAll, describe, expect, it, vi } from 'vitest'
import type { CallInput } from '../../../core/contract/calls.ts'
import { WhorlError } from '../../../core/contract/problem.ts'
import { runDesktop } from '../../../electron/main/desktop.ts'
import { bridgeOf } from '../../../electron/preload/bridge-of.ts'
import { channels } from '../../../electron/preload/channels.ts'
import { standInHost } from '../service/stand-in-host.ts'
import { standInElectron } from './stand-in-electron.ts'

const folder = mkdtempSync(join(tmpdir(), 'whorl-desktop-'))
const stateFolder = join(folder, 'windows', 'one')
afterAll(() => rmSync(folder, { recursive: true }))

const truth = JSON.parse(
  readFileSync(join(import.meta.dirname, '../../../sample-clips/topspin-240-c.truth.json'), 'utf8'),
)
const html = { type: 'text/html; charset=utf-8', bytes: Buffer.from('<title>Whorl</title>') }

async function started(
  instead: Parameters<typeof standInHost>[0] = {},
  electron = standInElectron(),
  closeLimitMilliseconds = 60_000,
) {
  const stand = standInHost(instead)
  const close = vi.spyOn(stand.host, 'close')
  let pick: ((purpose: CallInput<'files.pick'>['purpose']) => Promise<string[]>) | undefined
  await runDesktop(electron.electron, {
    stateFolder,
    closeLimitMilliseconds,
    preload: '/dist/preload.cjs',
    page: () => new Map([['/', html]]),
    openHost: async asked => {
      pick = asked
      return stand.host
    },
  })
  return { ...stand, ...electron, close, pick: pick! }
}
const answerTo = (
  seen: { protocol: null | ((request: Request) => Promise<Response>) },
  url: string,
  init = {},
) => seen.protocol!(new Request(url, init))

it('opens one window whose page has no Node and no way around the preload', async () => {
  const { made, seen } = await started()
  expect(made).toHaveLength(1)
  expect(made[0]!.webPreferences).toEqual({
    preload: '/dist/preload.cjs',
    contextIsolation: true,
    sandbox: true,
    nodeIntegration: false,
    webviewTag: false,
    navigateOnDragDrop: false,
    spellcheck: false,
  })
  expect(seen.loaded).toEqual(['whorl://app/'])
  expect(seen.shown).toBe(1)
  expect(seen.paths.userData).toBe(stateFolder)
  expect(existsSync(stateFolder)).toBe(true)
})

it('registers its scheme as a secure origin that can be fetched from', async () => {
  const { seen } = await started()
  const privileges = { standard: true, secure: true, supportFetchAPI: true, stream: true }
  expect(seen.schemes).toEqual([{ scheme: 'whorl', privileges }])
})

it.each([
  ['a foreign page in the window', { url: 'https://evil.example/' }],
  ['a page that only looks like ours', { url: 'whorl://app.evil/' }],
  ['another file of ours', { url: 'whorl://app/assets/app.js' }],
  ['a frame inside our page', { url: 'whorl://app/' }],
  ['a frame that is gone', null],
])('refuses messages of %s', async (_, frame) => {
  const { renderer, heard, contents } = await started()
  if (frame && frame.url !== 'whorl://app/') contents.mainFrame = frame
  const outcome = await renderer(frame).invoke(channels.call, 'sessions.list', {}, 'one')
  expect(outcome).toMatchObject({ ok: false, problem: { code: 'not-let-in' } })
  expect(heard).toEqual([])
})

it('lets nobody else cancel a call', async () => {
  const aborted = vi.fn()
  const { renderer, heard } = await started({
    'clips.prepare': (_, { signal }) =>
      new Promise((_resolve, reject) =>
        signal.addEventListener('abort', () => {
          aborted()
          reject(signal.reason)
        }),
      ),
  })
  const input = { clipId: 'c', window: { fromFrame: 0, toFrame: 1 } }
  const call = renderer().invoke(channels.call, 'clips.prepare', input, 'one')
  await vi.waitFor(() => expect(heard).toHaveLength(1), 30_000)
  renderer({ url: 'https://evil.example/' }).send(channels.cancel, 'one')
  renderer().send(channels.cancel, 'two')
  renderer().send(channels.cancel, { toString: 'one' })
  expect(aborted).not.toHaveBeenCalled()
  renderer().send(channels.cancel, 'one')
  await call
  expect(aborted).toHaveBeenCalledOnce()
})

it.each(['render-process-gone', 'did-start-navigation'])('cancels what runs on %s', async event => {
  const aborted = vi.fn()
  const { renderer, heard, contents } = await started({
    'clips.prepare': (_, { signal }) =>
      new Promise((_resolve, reject) =>
        signal.addEventListener('abort', () => {
          aborted()
          reject(signal.reason)
        }),
      ),
  })
  const input = { clipId: 'c', window: { fromFrame: 0, toFrame: 1 } }
  const call = renderer().invoke(channels.call, 'clips.prepare', input, 'one')
  await vi.waitFor(() => expect(heard).toHaveLength(1), 30_000)
  contents.emit(event, { isMainFrame: true, isSameDocument: false })
  await call
  expect(aborted).toHaveBeenCalledOnce()
})

it.each([
  'https://evil.example/',
  'file:///etc/passwd',
  'whorl://app.evil/',
  'whorl://app/x.html',
  'data:text/html,x',
])('refuses to go to %s', async url => {
  const { contents } = await started()
  const preventDefault = vi.fn()
  contents.emit('will-frame-navigate', { url, isMainFrame: true, preventDefault })
  expect(preventDefault).toHaveBeenCalledOnce()
})

it('lets its own page load again, but not in a frame', async () => {
  const { contents } = await started()
  const preventDefault = vi.fn()
  contents.emit('will-frame-navigate', { url: 'whorl://app/#/bench/h', isMainFrame: true, preventDefault })
  expect(preventDefault).not.toHaveBeenCalled()
  contents.emit('will-frame-navigate', { url: 'whorl://app/', isMainFrame: false, preventDefault })
  expect(preventDefault).toHaveBeenCalledOnce()
})

it('opens no further windows, views or permissions', async () => {
  const { seen, contents } = await started()
  expect(seen.windowOpen!({ url: 'whorl://app/' })).toEqual({ action: 'deny' })
  const preventDefault = vi.fn()
  contents.emit('will-attach-webview', { preventDefault })
  contents.emit('will-redirect', { preventDefault })
  expect(preventDefault).toHaveBeenCalledTimes(2)
  const answer = vi.fn()
  seen.permissionRequest!({}, 'media', answer)
  expect(answer).toHaveBeenCalledExactlyOnceWith(false)
  expect(seen.permissionCheck!()).toBe(false)
  expect(seen.devicePermission!()).toBe(false)
})

it('serves its page with the strict policy', async () => {
  const { seen } = await started()
  const answer = await answerTo(seen, 'whorl://app/')
  expect(answer.status).toBe(200)
  expect(await answer.text()).toBe('<title>Whorl</title>')
  expect(answer.headers.get('content-security-policy')).toContain("default-src 'none'")
  expect(answer.headers.get('x-content-type-options')).toBe('nosniff')
})

it.each([
  'whorl://app/../../etc/passwd',
  'whorl://app/%2e%2e/package.json',
  'whorl://app/..%2fx',
  'whorl://other/',
  'whorl://other/frame/c/1',
])('has nothing at %s', async url => {
  const { seen } = await started()
  expect((await answerTo(seen, url)).status).toBe(404)
})

it('takes no other method than GET', async () => {
  const { seen } = await started()
  for (const url of ['whorl://app/', 'whorl://app/frame/c/1'])
    expect((await answerTo(seen, url, { method: 'POST', body: 'x' })).status).toBe(404)
})

it('leaves the work to the window that is open already', async () => {
  const { seen, made } = await started({}, standInElectron({ firstInstance: false }))
  expect(seen.quits).toBe(1)
  expect(made).toEqual([])
})

it('comes to the front when started again', async () => {
  const { seen, appEvents } = await started()
  appEvents.emit('second-instance')
  expect(seen.focused).toBe(1)
})

it('says in a box why a workspace cannot be opened, and ends with 1', async () => {
  const { electron, seen, made } = standInElectron()
  await runDesktop(electron, {
    stateFolder,
    preload: '',
    page: () => new Map(),
    openHost: async () => {
      throw new WhorlError('workspace-locked', { path: '/w.sqlite' })
    },
  })
  expect(seen.boxes).toEqual([
    ['/w.sqlite is in use by another program.', 'Close the other window or program, then try again.'],
  ])
  expect(seen.exits).toEqual([1])
  expect(made).toEqual([])
})

describe('a window that is closed', () => {
  const bridgeIn = ({ renderer }: Awaited<ReturnType<typeof started>>) =>
    bridgeOf(renderer() as unknown as Parameters<typeof bridgeOf>[0], { getPathForFile: () => '' })

  it('waits until its page has every step saved', async () => {
    const app = await started()
    let write = () => {}
    const written = new Promise<void>(done => {
      write = done
    })
    bridgeIn(app).beforeClose(() => written)
    app.windows[0]!.close()
    app.windows[0]!.close()
    await new Promise(done => setTimeout(done, 20))
    expect(app.seen.closed).toBe(0)
    write()
    await vi.waitFor(() => expect(app.seen.closed).toBe(1), 30_000)
  })

  it('closes also where a step could not be saved, or the page says nothing, or is gone', async () => {
    const failing = await started()
    bridgeIn(failing).beforeClose(() => Promise.reject(new Error('The disk is full.')))
    failing.windows[0]!.close()
    await vi.waitFor(() => expect(failing.seen.closed).toBe(1), 30_000)

    const silent = await started({}, standInElectron(), 1)
    bridgeIn(silent).beforeClose(() => new Promise(() => {}))
    silent.windows[0]!.close()
    await vi.waitFor(() => expect(silent.seen.closed).toBe(1), 30_000)

    const gone = await started()
    gone.contents.emit('render-process-gone')
    gone.windows[0]!.close()
    expect(gone.seen.closed).toBe(1)
  })

  it('takes no other page’s word for it', async () => {
    const app = await started()
    bridgeIn(app).beforeClose(() => new Promise(() => {}))
    app.windows[0]!.close()
    app.renderer({ url: 'https://evil.example/' }).send(channels.written)
    expect(app.seen.closed).toBe(0)
    app.renderer().send(channels.written)
    expect(app.seen.closed).toBe(1)
  })
})

it('closes the host before it ends', async () => {
  const { seen, appEvents, close } = await started()
  appEvents.emit('window-all-closed')
  expect(seen.quits).toBe(1)
  const preventDefault = vi.fn()
  appEvents.emit('will-quit', { preventDefault })
  expect(preventDefault).toHaveBeenCalledOnce()
  await vi.waitFor(() => expect(seen.exits).toEqual([0]), 30_000)
  expect(close).toHaveBeenCalledOnce()
})

it('asks the desktop’s own dialogs for clips and for a target', async () => {
  const { pick, seen } = await started()
  expect(await pick('clips')).toEqual(['/clips/a.mp4', '/clips/b.mov'])
  expect(await pick('target')).toEqual([])
  expect(seen.dialogs).toHaveLength(2)
})

describe('started to see whether it works', () => {
  /** A host that reads the sample as turning at this rate. */
  async function checked(rpm: number | null) {
    const { host } = standInHost({
      'sessions.create': async () => ({ id: 's' }),
      'clips.add': async () => ({ clips: [{ id: 'c' }] }),
      'clips.read': async () => ({ hitIds: ['h'], said: '' }),
      'hits.list': async () => [{ window: { fromFrame: 1, toFrame: 38 }, reading: { rpm } }],
    })
    const { electron, seen } = standInElectron()
    const said: string[] = []
    await runDesktop(electron, {
      stateFolder,
      preload: '',
      page: () => new Map(),
      openHost: async () => host,
      smoke: { say: words => said.push(words) },
    })
    return { said, seen }
  }

  it('reads a sample through its own page, says so and ends', async () => {
    const { said, seen } = await checked(truth.flights[0].rpm * 1.001)
    expect(said).toEqual([
      expect.stringMatching(/^Whorl opens and reads: topspin-240-c\.mp4 turns at \d+ rpm/),
    ])
    expect(seen.quits).toBe(1)
    expect(seen.exits).toEqual([])
  })

  it.each([
    ['a wrong figure', truth.flights[0].rpm * 1.02, 'was read as'],
    ['no figure', null, '1 hits were found'],
  ])('ends with 1 on %s, and waits for nobody', async (_, rpm, words) => {
    const { said, seen } = await checked(rpm)
    expect(said).toEqual([expect.stringContaining(words)])
    expect(seen.exits).toEqual([1])
    expect(seen.boxes).toEqual([])
  })
})

it('gives the page five frozen functions and nothing of Electron', () => {
  const { renderer } = standInElectron()
  const bridge = bridgeOf(renderer() as unknown as Parameters<typeof bridgeOf>[0], {
    getPathForFile: () => '',
  })
  expect(Object.keys(bridge).sort()).toEqual(['beforeClose', 'call', 'cancel', 'on', 'pathOf'])
  expect(Object.isFrozen(bridge)).toBe(true)
})
