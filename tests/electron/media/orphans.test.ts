import { execFileSync, spawn } from 'node:child_process'
import { once } from 'node:events'
import { createInterface } from 'node:readline'
import { fileURLToPath } from 'node:url'
import { afterAll, afterEach, beforeAll, describe, expect, test } from 'vitest'
import { createMedia } from '../../../electron/media/create-media.ts'
import type { Media } from '../../../electron/media/media.ts'
import { Clips, h264 } from './clips.ts'

const clips = new Clips()
afterAll(() => clips.remove())

/** A clip of an odd name, so that programs working on it can be told from all others of this machine. */
let path: string
beforeAll(() => {
  const film = clips.film('short.mp4', h264())
  // Long, and with a key picture at its beginning alone: no job on it ends by itself before it is cancelled, a frame
  // near its end neither.
  const coder = ['-c:v', 'libx264', '-preset', 'ultrafast', '-crf', '30', '-pix_fmt', 'yuv420p']
  const oneKey = ['-g', '1000000', '-sc_threshold', '0']
  path = clips.make(`orphan-${process.pid}.mp4`, '-stream_loop', '400', '-i', film, ...coder, ...oneKey)
})

const window = { fromFrame: 5000, toFrame: 20_000 }
let media: Media
afterEach(() => media.close())
const open = () => {
  media = createMedia({ programs: 'packages' })
  return media
}

describe('no program outlives its job', () => {
  const jobs: [string, (signal: AbortSignal) => Promise<unknown>][] = [
    ['a probe', signal => media.probe(path, { signal })],
    ['listing the times', signal => media.timestamps(path, { signal })],
    ['preparing a window', signal => media.prepare(path, window, { signal })],
    ['a frame', signal => media.frame(path, 24_000, { signal })],
    ['looking at brightness', signal => all(media.lumaWindow(path, window, { signal }))],
  ]
  test.each(jobs)('when it is cancelled on its way: %s', async (name, job) => {
    open()
    if (name !== 'listing the times') await media.timestamps(path)
    const controller = new AbortController()
    const result = job(controller.signal).then(
      () => 'ended',
      error => error.code,
    )
    await running()
    controller.abort()
    expect(await result).toBe('cancelled')
    await gone()
  })

  test.each(jobs)('when it is cancelled before it began: %s', async (_, job) => {
    open()
    expect(
      await job(AbortSignal.abort()).then(
        () => 'ended',
        error => error.code,
      ),
    ).toBe('cancelled')
    expect(programs()).toEqual([])
  })

  test('when brightness is looked at no further', async () => {
    open()
    for await (const { frame } of media.lumaWindow(path, window)) if (frame === window.fromFrame + 2) break
    await gone()
  })

  test('when a slow reader is stopped while the program waits for it', async () => {
    open()
    const frames = media.lumaWindow(path, window)[Symbol.asyncIterator]()
    await frames.next()
    await new Promise(resolve => setTimeout(resolve, 300))
    expect(programs().length).toBe(1)
    await frames.return?.()
    await gone()
  })

  test('when all is closed, and what is asked later is refused', async () => {
    open()
    await media.timestamps(path)
    const results = [media.probe(path), media.prepare(path, window), media.frame(path, 24_000)]
    const codes = Promise.all(
      results.map(result =>
        result.then(
          () => 'ended',
          error => error.code,
        ),
      ),
    )
    await running()
    await media.close()
    expect(programs()).toEqual([])
    expect(await codes).toEqual(['cancelled', 'cancelled', 'cancelled'])
    await expect(media.frame(path, 0)).rejects.toMatchObject({ code: 'cancelled' })
  })

  test('and one reader less does not stop it for the others', async () => {
    open()
    await media.timestamps(path)
    const controller = new AbortController()
    const left = media.frame(path, 24_000, { signal: controller.signal }).catch(error => error.code)
    const stays = media.frame(path, 24_000)
    await running()
    controller.abort()
    expect(await left).toBe('cancelled')
    expect((await stays).data.length).toBe((160 * 96 * 3) / 2)
  })
})

describe('no program outlives the host', () => {
  const ends: [string, NodeJS.Signals | null][] = [
    ['leaves', null],
    ['is killed', 'SIGKILL'],
    ['is told to stop', 'SIGTERM'],
  ]
  test.each(ends)('that %s', async (_, signal) => {
    open()
    const script = fileURLToPath(new URL('./scanning-child.ts', import.meta.url))
    const host = spawn(process.execPath, ['--import', 'tsx', script, path], {
      stdio: ['pipe', 'pipe', 'inherit'],
    })
    const ended = once(host, 'close')
    await once(createInterface(host.stdout), 'line')
    expect(programs().length).toBeGreaterThan(0)
    if (signal) host.kill(signal)
    else host.stdin.end()
    await ended
    await gone()
  })
})

async function all<T>(values: AsyncIterable<T>): Promise<void> {
  for await (const _ of values);
}

/** The ffmpegs and ffprobes that have our clip open. */
function programs(): string[] {
  const listed = execFileSync('ps', ['-eo', 'pid=,stat=,args=']).toString().split('\n')
  return listed.filter(
    line => /ff(mpeg|probe)/.test(line) && line.includes(path) && !/^\s*\d+\s+Z/.test(line),
  )
}

const running = () => waitFor(() => programs().length > 0, 'a program to run')
const gone = () => waitFor(() => programs().length === 0, 'the programs to end')

async function waitFor(holds: () => boolean, what: string): Promise<void> {
  for (let i = 0; i < 400; i++) {
    if (holds()) return
    await new Promise(resolve => setTimeout(resolve, 25))
  }
  throw new Error(`waited in vain for ${what}: ${programs().join('\n')}`)
}
