import { execFileSync } from 'node:child_process'
import { copyFileSync, renameSync, rmSync } from 'node:fs'
import { join } from 'node:path'
import { expect, it } from 'vitest'
import { places } from '../../electron/service/places.ts'
import { codeOf, hostOn, ownFolder, sampleClip, withMarkedClip } from './open-host.ts'

it('a clip that is deleted while it is open says so, its marks stay, and it goes on when it is back', async () => {
  const folder = ownFolder()
  const { host, ask } = hostOn(join(folder, 'w.sqlite'))
  const { path, sessionId, clipId, hitId } = await withMarkedClip(folder, ask)
  const before = await ask('hits.open', { hitId })
  await host.frame(clipId, 3, {})
  rmSync(path)
  expect(await codeOf(host.frame(clipId, 4, {}))).toBe('file-not-found')
  expect(await codeOf(ask('clips.prepare', { clipId, window: before.row.window }))).toBe('file-not-found')
  expect((await ask('clips.list', { sessionId }))[0]!.problem?.code).toBe('file-not-found')
  expect((await ask('clips.open', { clipId })).clip.problem?.code).toBe('file-not-found')
  const sighting = { kind: 'point' as const, frame: 5, mark: 'logo', xPx: 405, yPx: 200 }
  const after = await ask('hits.edit', { hitId, edit: { kind: 'place-sighting', sighting } })
  expect(after.marks.sightings).toHaveLength(before.marks.sightings.length + 1)
  copyFileSync(join(places.samples, sampleClip), path)
  expect((await host.frame(clipId, 4, {})).widthPx).toBe(960)
  expect((await ask('clips.list', { sessionId }))[0]!.problem).toBeNull()
})

it('a clip that is moved while it is open is found where it went, by its contents', async () => {
  const folder = ownFolder()
  const { host, ask } = hostOn(join(folder, 'w.sqlite'))
  const { path, clipId } = await withMarkedClip(folder, ask)
  await host.frame(clipId, 3, {})
  const moved = join(folder, 'moved.mp4')
  renameSync(path, moved)
  expect(await codeOf(host.frame(clipId, 30, {}))).toBe('file-not-found')
  expect((await ask('clips.locate', { clipId, path: folder })).path).toBe(moved)
  expect((await host.frame(clipId, 30, {})).widthPx).toBe(960)
})

it('another clip in its place is not taken for it: no picture of it is shown under the marks', async () => {
  const folder = ownFolder()
  const { host, ask } = hostOn(join(folder, 'w.sqlite'))
  const { path, sessionId, clipId, hitId } = await withMarkedClip(folder, ask)
  copyFileSync(join(places.samples, 'contact-240.mp4'), path)
  expect((await ask('clips.list', { sessionId }))[0]!.problem?.code).toBe('clip-not-same')
  expect((await ask('clips.open', { clipId })).clip.problem?.code).toBe('clip-not-same')
  expect(await codeOf(host.frame(clipId, 3, {}))).toBe('clip-not-same')
  expect(await codeOf(ask('clips.prepare', { clipId, window: { fromFrame: 2, toFrame: 4 } }))).toBe(
    'clip-not-same',
  )
  expect((await ask('hits.open', { hitId })).marks.sightings).toHaveLength(3)
})

/** Kills every ffmpeg that has the file open, until the work is given up: one may end by itself while it is looked for. */
async function killDecoders(path: string, work: Promise<unknown>): Promise<void> {
  let isOver = false
  const over = () => {
    isOver = true
  }
  work.then(over, over)
  while (!isOver) {
    const lines = execFileSync('ps', ['-eo', 'pid=,ppid=,args=']).toString().split('\n')
    const found = lines
      .map(line => /^\s*(\d+)\s+(\d+)\s+(.*)$/.exec(line))
      .filter(line => line && /ff(mpeg|probe)/.test(line[3]!) && line[3]!.includes(path))
    for (const line of found) {
      try {
        process.kill(Number(line![1]), 'SIGKILL')
      } catch {}
    }
    await new Promise(resolve => setTimeout(resolve, 2))
  }
}

it('an ffmpeg that is killed fails that step with a name, and the next step works', async () => {
  const folder = ownFolder()
  const { host, ask } = hostOn(join(folder, 'w.sqlite'))
  const { path, sessionId, clipId } = await withMarkedClip(folder, ask)
  // Long enough that its decoder is still at work when it is killed.
  const long = join(folder, 'long.mp4')
  const { ffmpeg } = await import('@ffmpeg-installer/ffmpeg').then(({ default: at }) => ({ ffmpeg: at.path }))
  execFileSync(ffmpeg, ['-v', 'error', '-stream_loop', '20', '-i', path, '-c', 'copy', long])
  const adding = ask('clips.add', { sessionId, paths: [long] })
  await killDecoders(long, adding)
  const { clips } = await adding
  expect(clips[0]!.problem?.code).toBe('ffmpeg-failed')
  const again = await ask('clips.add', { sessionId, paths: [long] })
  expect(again.clips[0]!.problem).toBeNull()
  expect(again.clips[0]!.probe!.frames).toBeGreaterThan(500)
  expect((await host.frame(clipId, 3, {})).widthPx).toBe(960)
})
