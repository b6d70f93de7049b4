import { mkdirSync, renameSync, rmSync, writeFileSync } from 'node:fs'
import { join } from 'node:path'
import { describe, expect, it, vi } from 'vitest'
import { openService } from './open-service.ts'

const window = { fromFrame: 5, toFrame: 20 }
const gate = () => {
  let open = () => {}
  const opened = new Promise<void>(resolve => {
    open = resolve
  })
  return { opened, open: () => open() }
}

describe('adding clips', () => {
  it('keeps a bad one as a record with its problem, and the others as clips', async () => {
    const { call, file, session } = openService()
    const { id } = await session()
    const paths = [
      file('a.mp4', 'clip a'),
      file('notes.mp4', 'text'),
      '/no/such.mp4',
      file('b.mp4', 'clip b'),
    ]
    const { clips } = await call('clips.add', { sessionId: id, paths })
    expect(clips.map(({ name, probe, problem }) => [name, probe?.frames, problem?.code])).toEqual([
      ['a.mp4', 60, undefined],
      ['notes.mp4', undefined, 'clip-not-video'],
      ['such.mp4', undefined, 'file-not-found'],
      ['b.mp4', 60, undefined],
    ])
    expect((await call('clips.list', { sessionId: id })).map(clip => clip.name).sort()).toEqual(
      ['a.mp4', 'b.mp4', 'notes.mp4', 'such.mp4'].sort(),
    )
  })

  it('lists and opens a clip before its file has been read through', async () => {
    const { opened, open } = gate()
    const { call, file, session, events } = openService(() => opened)
    const { id } = await session()
    const adding = call('clips.add', { sessionId: id, paths: [file('a.mp4', 'clip a')] })
    await vi.waitFor(
      () => expect(events).toContainEqual({ kind: 'changed', what: 'clips', id: null }),
      30_000,
    )
    const [record] = await call('clips.list', { sessionId: id })
    expect(record).toMatchObject({ name: 'a.mp4', probe: null, problem: null })
    const { timestampsSeconds } = await call('clips.open', { clipId: record!.id })
    expect(timestampsSeconds).toHaveLength(60)
    const hit = await call('hits.create', { clipId: record!.id, window })
    expect(hit.row.reading).toBeNull()
    open()
    const { clips } = await adding
    expect(clips[0]).toMatchObject({ id: record!.id, probe: { frames: 60 } })
    expect(events).toContainEqual({ kind: 'changed', what: 'clips', id: record!.id })
    expect((await call('hits.list', { clipId: record!.id }))[0]!.reading).not.toBeNull()
  })

  it('tells how far it is, by name', async () => {
    const { call, file, session } = openService()
    const { id } = await session()
    const progress = vi.fn()
    const paths = [file('a.mp4', 'clip a'), file('b.mp4', 'clip b')]
    await call('clips.add', { sessionId: id, paths }, { progress })
    expect(progress.mock.calls.map(([{ what, done, total }]) => [what, done, total])).toEqual([
      ['a.mp4', 1, 2],
      ['b.mp4', 2, 2],
    ])
  })

  it('keeps what is done and takes back the rest when it is cancelled', async () => {
    const cancel = new AbortController()
    const { call, file, session } = openService(async (path, signal) => {
      if (!path.endsWith('b.mp4')) return
      cancel.abort()
      signal?.throwIfAborted()
    })
    const { id } = await session()
    const paths = ['a', 'b', 'c'].map(name => file(`${name}.mp4`, `clip ${name}`))
    await expect(call('clips.add', { sessionId: id, paths }, { signal: cancel.signal })).rejects.toThrow()
    expect((await call('clips.list', { sessionId: id })).map(clip => clip.name)).toEqual(['a.mp4'])
  })

  it('holds the same path, and the same contents, once', async () => {
    const { call, file, session } = openService()
    const { id } = await session()
    const path = file('a.mp4', 'clip a')
    const first = await call('clips.add', { sessionId: id, paths: [path] })
    const again = await call('clips.add', { sessionId: id, paths: [path] })
    const copy = await call('clips.add', { sessionId: id, paths: [file('copy.mp4', 'clip a')] })
    expect(again.clips[0]!.id).toBe(first.clips[0]!.id)
    expect(copy.clips[0]!.id).toBe(first.clips[0]!.id)
    expect(await call('clips.list', { sessionId: id })).toHaveLength(1)
  })

  it('looks again at a file that could not be used the first time', async () => {
    const { call, file, session } = openService()
    const { id } = await session()
    const path = file('a.mp4', 'half')
    await call('clips.add', { sessionId: id, paths: [path] })
    writeFileSync(path, 'clip whole')
    const { clips } = await call('clips.add', { sessionId: id, paths: [path] })
    expect(clips[0]).toMatchObject({ problem: null, probe: { frames: 60 } })
  })

  it('goes on by itself with a clip whose look was broken off by a kill', async () => {
    const { call, file, session, workspace } = openService()
    const { id } = await session()
    const found = { path: file('a.mp4', 'clip a'), probe: null, problem: null, timestampsSeconds: [] }
    const { id: clipId } = workspace.addClip(id, found)
    expect((await call('clips.list', { sessionId: id }))[0]!.probe).toBeNull()
    await vi.waitFor(() => expect(workspace.clip(clipId).probe?.frames).toBe(60), 30_000)
  })

  it('takes clips from named folders and from the folder of dropped files alone', async () => {
    const { call, folder, session } = openService(undefined, { folders: ['/no/such/folder'] })
    const { id } = await session()
    mkdirSync(join(folder, 'clips'))
    writeFileSync(join(folder, 'clips', 'a.mp4'), 'clip a')
    writeFileSync(join(folder, 'b.mp4'), 'clip b')
    const dropped = await call('clips.add', { sessionId: id, paths: [join(folder, 'clips', 'a.mp4')] })
    expect(dropped.clips[0]!.probe?.frames).toBe(60)
    const outside = call('clips.add', { sessionId: id, paths: [join(folder, 'b.mp4')] })
    await expect(outside).rejects.toMatchObject({ code: 'folder-not-named' })
    expect(await call('clips.list', { sessionId: id })).toHaveLength(1)
  })
})

describe('a clip that is no longer at its path', () => {
  async function moved() {
    const opened = openService()
    const { id } = await opened.session()
    const path = opened.file('a.mp4', 'clip a')
    const { clips } = await opened.call('clips.add', { sessionId: id, paths: [path] })
    const inner = join(opened.folder, 'inner')
    mkdirSync(inner)
    renameSync(path, join(inner, 'renamed.mp4'))
    return { ...opened, clipId: clips[0]!.id, sessionId: id, inner, path }
  }

  it('says so, and its hits stay', async () => {
    const { call, clipId, sessionId } = await moved()
    const [record] = await call('clips.list', { sessionId })
    expect(record).toMatchObject({ id: clipId, probe: null, problem: { code: 'file-not-found' } })
    expect((await call('clips.open', { clipId })).timestampsSeconds).toEqual([])
  })

  it('is found by its contents in the folder that the person shows', async () => {
    const { call, clipId, inner } = await moved()
    writeFileSync(join(inner, 'same-size.mp4'), 'clip b')
    const record = await call('clips.locate', { clipId, path: inner })
    expect(record).toMatchObject({ path: join(inner, 'renamed.mp4'), problem: null, probe: { frames: 60 } })
  })

  it('is found at the file that the person shows', async () => {
    const { call, clipId, inner } = await moved()
    const record = await call('clips.locate', { clipId, path: join(inner, 'renamed.mp4') })
    expect(record.problem).toBeNull()
  })

  it('is not taken for another file', async () => {
    const { call, clipId, file, folder, inner, path } = await moved()
    const other = file('b.mp4', 'clip b')
    const wrong = call('clips.locate', { clipId, path: other })
    await expect(wrong).rejects.toMatchObject({ code: 'clip-not-same' })
    rmSync(join(inner, 'renamed.mp4'))
    const nowhere = call('clips.locate', { clipId, path: folder })
    await expect(nowhere).rejects.toMatchObject({ code: 'file-not-found' })
    expect((await call('clips.open', { clipId })).clip.path).toBe(path)
  })

  it('is whole again when the file comes back', async () => {
    const { call, inner, path, sessionId } = await moved()
    renameSync(join(inner, 'renamed.mp4'), path)
    expect((await call('clips.list', { sessionId }))[0]).toMatchObject({
      problem: null,
      probe: { frames: 60 },
    })
  })

  it('is looked at when its file comes for the first time', async () => {
    const { call, file, folder, session } = openService()
    const { id: sessionId } = await session()
    await call('clips.add', { sessionId, paths: [join(folder, 'late.mp4')] })
    file('late.mp4', 'clip late')
    await call('clips.list', { sessionId })
    await vi.waitFor(async () => {
      const [record] = await call('clips.list', { sessionId })
      expect(record).toMatchObject({ problem: null, probe: { frames: 60 } })
    }, 30_000)
  })
})
