import { mkdirSync, renameSync, rmSync, writeFileSync } from 'node:fs'
import { join } from 'node:path'
import { describe, expect, test } from 'vitest'
import { createReadQueue } from '../../../electron/service/read-queue.ts'
import { createWatcher } from '../../../electron/service/watcher.ts'
import { type OpenService, openService } from './open-service.ts'

/** A machine at work on other things answers late; that is no fault here. */
const patient = { timeout: 20_000, interval: 20 }

async function withClip(content: string) {
  const open = openService()
  const { id: sessionId } = await open.session()
  const path = open.file('drive.mp4', content)
  const { clips } = await open.call('clips.add', { sessionId, paths: [path] })
  return { ...open, sessionId, clipId: clips[0]!.id, path }
}
const hitsOf = ({ call }: OpenService, clipId: string) => call('hits.list', { clipId })
const queueOf = ({ call }: OpenService, sessionId: string) => call('queue.state', { sessionId })

describe('reading a clip', () => {
  test('makes a hit of each flight: window, an outline in every frame, the reading, its verdict open', async () => {
    const open = await withClip('clip with two')
    const progress: string[] = []
    const { hitIds, said } = await open.call(
      'clips.read',
      { clipId: open.clipId },
      { progress: ({ what }) => progress.push(what) },
    )
    expect(said).toBe('2 flights found, read.')
    expect(progress).toEqual(['Reading flights'])
    const rows = await hitsOf(open, open.clipId)
    expect(rows.map(({ hitId }) => hitId)).toEqual(hitIds)
    const { row, marks, surface, canUndo } = await open.call('hits.open', { hitId: hitIds[0]! })
    expect(row).toMatchObject({
      window: { fromFrame: 10, toFrame: 20 },
      verdict: { state: 'open' },
      reading: { method: 'surface', rpm: 2300 },
      provenance: 'untouched',
      stale: false,
    })
    expect(marks.outlines).toHaveLength(11)
    expect(marks.outlines.every(({ found }) => found)).toBe(true)
    expect(surface).toMatchObject({ focalLengthPx: 1300, feature: { frame: 12 } })
    expect(canUndo).toBe(false)
  })

  test('a second time reads nothing again and adds nothing', async () => {
    const open = await withClip('clip')
    await open.call('clips.read', { clipId: open.clipId })
    expect(await open.call('clips.read', { clipId: open.clipId })).toMatchObject({ hitIds: [] })
    expect(open.read).toHaveLength(1)
    expect(await hitsOf(open, open.clipId)).toHaveLength(1)
  })

  test('keeps nothing of a file that was replaced meanwhile', async () => {
    const open = await withClip('clip')
    const replaced = open.call(
      'clips.read',
      { clipId: open.clipId },
      { progress: () => writeFileSync(open.path, 'clip of another hit') },
    )
    await expect(replaced).rejects.toMatchObject({ code: 'clip-not-same' })
    expect(await hitsOf(open, open.clipId)).toEqual([])
    // The right file again is read anew, not answered from what the other one showed.
    writeFileSync(open.path, 'clip')
    await open.call('clips.read', { clipId: open.clipId })
    expect(open.read).toHaveLength(2)
    expect(await hitsOf(open, open.clipId)).toHaveLength(1)
  })

  test('says of a flight that could not be read why, and what to do', async () => {
    const open = await withClip('clip of a plain ball')
    const { said } = await open.call('clips.read', { clipId: open.clipId })
    expect(said).toBe('One flight found, but not read. Too little pattern. Put a mark on the ball.')
  })

  test('leaves the hits that a person made', async () => {
    const open = await withClip('clip with two')
    await open.call('hits.create', { clipId: open.clipId, window: { fromFrame: 5, toFrame: 12 } })
    const { hitIds } = await open.call('clips.read', { clipId: open.clipId })
    expect(hitIds).toHaveLength(1)
    expect(await hitsOf(open, open.clipId)).toHaveLength(2)
  })

  test('without a flight says why and makes no hit', async () => {
    const open = await withClip('clip with none')
    const { hitIds, said } = await open.call('clips.read', { clipId: open.clipId })
    expect([hitIds, said]).toEqual([[], expect.stringContaining('No ball was seen')])
  })
})

describe('a hit read from the surface', () => {
  const found = async () => {
    const open = await withClip('clip')
    const { hitIds } = await open.call('clips.read', { clipId: open.clipId })
    return { ...open, hitId: hitIds[0]! }
  }

  test('is read again in the background when an outline is put right, and back by undo', async () => {
    const open = await found()
    const outline = { frame: 12, xPx: 141, yPx: 200, radiusPx: 40 }
    const edited = await open.call('hits.edit', {
      hitId: open.hitId,
      edit: { kind: 'place-outline', outline },
    })
    expect(edited.row.stale).toBe(true)
    const rpm = async () => (await open.call('hits.open', { hitId: open.hitId })).row.reading?.rpm
    await expect.poll(rpm, patient).toBe(2400)
    const { row, marks } = await open.call('hits.open', { hitId: open.hitId })
    expect([row.stale, row.provenance, marks.outlines.length]).toEqual([false, 'accepted', 11])
    expect(marks.outlines.find(({ frame }) => frame === 12)).toEqual(outline)
    expect(open.read.at(-1)!.options.corrected).toHaveLength(1)
    await open.call('hits.undo', { hitId: open.hitId })
    await expect.poll(rpm, patient).toBe(2300)
  })

  test('can be accepted, and says then that a person agreed', async () => {
    const open = await found()
    const { row } = await open.call('hits.edit', {
      hitId: open.hitId,
      edit: { kind: 'decide', verdict: { state: 'accepted', reason: '' } },
    })
    expect([row.verdict.state, row.provenance, row.stale]).toEqual(['accepted', 'accepted', false])
  })

  test('stands at the candidate that a person settles on, without being read again', async () => {
    const open = await found()
    const settled = { rpm: 12100, sense: 'counter-clockwise' as const, reason: 'It was sliced.' }
    const { row } = await open.call('hits.edit', { hitId: open.hitId, edit: { kind: 'settle', settled } })
    expect(row.reading).toMatchObject({ rpm: 12100, sense: 'counter-clockwise' })
    expect(open.read).toHaveLength(1)
  })

  test('keeps its reading while marks are placed, until a person says that the marks shall count', async () => {
    const open = await found()
    const sighting = (frame: number, xPx: number) => ({
      kind: 'place-sighting' as const,
      sighting: { kind: 'point' as const, frame, mark: 'logo', xPx, yPx: 190 },
    })
    const edit = (one: Parameters<typeof open.call<'hits.edit'>>[1]['edit']) =>
      open.call('hits.edit', { hitId: open.hitId, edit: one })
    await edit(sighting(12, 150))
    const marked = await edit(sighting(13, 175))
    expect(marked.row.reading).toMatchObject({ method: 'surface', rpm: 2300 })
    expect(marked.row.stale).toBe(false)
    const byMarks = await edit({ kind: 'read-from', source: 'marks' })
    expect(byMarks.row.reading?.method).not.toBe('surface')
    expect(byMarks.row.provenance).toBe('clicked')
    const back = await edit({ kind: 'read-from', source: 'surface' })
    expect(back.row.reading).toMatchObject({ method: 'surface', rpm: 2300 })
    expect(open.read).toHaveLength(1)
  })

  test('follows what becomes known of the camera', async () => {
    const open = await found()
    const session = open.workspace.session(open.sessionId)
    const camera = { ...session.camera, exposureSeconds: 0.001 }
    await open.call('sessions.update', { sessionId: open.sessionId, details: { ...session, camera } })
    await expect.poll(async () => (await hitsOf(open, open.clipId))[0]!.stale, patient).toBe(false)
    expect(open.read.at(-1)!.options.exposureSeconds).toBe(0.001)
  })
})

describe('reading one hit on the bench', () => {
  test('is one step that undo takes back', async () => {
    const open = await withClip('clip')
    const window = { fromFrame: 5, toFrame: 25 }
    const { row } = await open.call('hits.create', { clipId: open.clipId, window })
    const read = await open.call('hits.read', { hitId: row.hitId })
    expect(read.row).toMatchObject({ window: { fromFrame: 10, toFrame: 20 }, reading: { rpm: 2300 } })
    const undone = await open.call('hits.undo', { hitId: row.hitId })
    expect(undone.marks).toMatchObject({ window, outlines: [] })
    expect(undone.marks.readFrom).toBeUndefined()
  })

  test('opens an accepted hit again: another figure was accepted', async () => {
    const open = await withClip('clip')
    const { hitIds } = await open.call('clips.read', { clipId: open.clipId })
    const hitId = hitIds[0]!
    const accepted = { kind: 'decide' as const, verdict: { state: 'accepted' as const, reason: '' } }
    await open.call('hits.edit', { hitId, edit: accepted })
    const { row } = await open.call('hits.read', { hitId })
    expect([row.verdict.state, row.provenance]).toEqual(['open', 'untouched'])
  })

  test('says why where no ball is seen, and changes nothing', async () => {
    const open = await withClip('clip with none')
    const window = { fromFrame: 5, toFrame: 25 }
    const { row } = await open.call('hits.create', { clipId: open.clipId, window })
    await expect(open.call('hits.read', { hitId: row.hitId })).rejects.toMatchObject({
      message: expect.stringContaining('No ball was seen'),
    })
    expect((await open.call('hits.open', { hitId: row.hitId })).marks.outlines).toEqual([])
  })
})

describe('the queue of a session', () => {
  test('reads every clip, whatever happens to one of them', async () => {
    const open = openService()
    const { id: sessionId } = await open.session()
    const paths = ['clip a', 'clip broken', 'clip with none', 'no video'].map((text, i) =>
      open.file(`${i}.mp4`, text),
    )
    await open.call('clips.add', { sessionId, paths })
    await open.call('queue.start', { sessionId })
    const states = async () => (await queueOf(open, sessionId)).entries.map(({ state }) => state)
    await expect.poll(states, patient).toEqual(['done', 'failed', 'done'])
    const { entries } = await queueOf(open, sessionId)
    expect(entries.map(({ said }) => said)).toEqual([
      'One flight found, read.',
      expect.stringContaining('it broke off'),
      expect.stringContaining('No ball was seen'),
    ])
  })

  test('is left by what is cancelled; what was done stays', async () => {
    const open = openService()
    const { id: sessionId } = await open.session()
    const paths = ['clip a', 'clip b slow', 'clip c slow'].map((text, i) => open.file(`${i}.mp4`, text))
    await open.call('clips.add', { sessionId, paths })
    await open.call('queue.start', { sessionId })
    const done = async () =>
      (await queueOf(open, sessionId)).entries.filter(one => one.state === 'done').length
    await expect.poll(done, patient).toBe(1)
    const { entries } = await open.call('queue.cancel', { sessionId })
    expect(entries.map(({ state }) => state)).toEqual(['done'])
  })

  test('goes on after the program was killed in the middle of a clip', async () => {
    const open = await withClip('clip')
    const { workspace, parts } = open
    workspace.putInQueue([open.clipId])
    workspace.setQueued(open.clipId, 'reading', '')
    const restarted = createReadQueue(parts)
    restarted.goOn()
    await expect.poll(() => restarted.state(open.sessionId).entries[0]?.state, patient).toBe('done')
    expect(await hitsOf(open, open.clipId)).toHaveLength(1)
  })
})

describe('a watched folder', () => {
  const watched = async () => {
    const open = openService()
    const { id: sessionId } = await open.session()
    const folder = join(open.folder, 'sync')
    mkdirSync(folder)
    writeFileSync(join(folder, 'old.mp4'), 'clip that was there before')
    await open.call('watch.set', { sessionId, folder })
    const state = () => open.call('watch.state', { sessionId })
    return { ...open, sessionId, in: folder, state }
  }

  test('brings in what arrives and has it read; what was there before is no news', async () => {
    const open = await watched()
    writeFileSync(join(open.in, 'new.mp4'), 'clip')
    await expect.poll(async () => (await open.state()).arrived, patient).toEqual(['new.mp4'])
    const hits = async () => (await open.call('hits.list', { sessionId: open.sessionId })).length
    await expect.poll(hits, patient).toBe(1)
    expect((await open.call('clips.list', { sessionId: open.sessionId })).map(({ name }) => name)).toEqual([
      'new.mp4',
    ])
    expect(open.events).toContainEqual({ kind: 'changed', what: 'queue', id: open.sessionId })
  })

  test('lets a half-copied file wait, also under its final name, until it opens', async () => {
    const open = await watched()
    const path = join(open.in, 'half.mp4')
    writeFileSync(path, 'ftyp')
    await expect.poll(() => open.probed.includes(path), patient).toBe(true)
    await expect.poll(async () => (await open.state()).waiting, patient).toEqual(['half.mp4'])
    await expect.poll(() => open.call('clips.list', { sessionId: open.sessionId }), patient).toEqual([])
    writeFileSync(`${path}.part`, 'clip, and whole now')
    renameSync(`${path}.part`, path)
    await expect.poll(async () => (await open.state()).arrived, patient).toEqual(['half.mp4'])
    expect((await open.state()).waiting).toEqual([])
  })

  test('lets a file that opens but is cut off wait for the rest', async () => {
    const open = await watched()
    const path = join(open.in, 'index in front.mp4')
    writeFileSync(path, 'clip, truncated')
    await expect.poll(async () => (await open.state()).waiting, patient).toEqual(['index in front.mp4'])
    await expect.poll(() => open.probed.filter(each => each === path).length, patient).toBe(1)
    await expect.poll(() => open.call('clips.list', { sessionId: open.sessionId }), patient).toEqual([])
    writeFileSync(path, 'clip, and the rest of it')
    await expect.poll(async () => (await open.state()).arrived, patient).toEqual(['index in front.mp4'])
  })

  test('takes anew what grew on or was replaced after it came in, unless somebody has worked on it', async () => {
    const open = await watched()
    const clips = () => open.call('clips.list', { sessionId: open.sessionId })
    const hits = () => open.call('hits.list', { sessionId: open.sessionId })
    const path = join(open.in, 'new.mp4')
    writeFileSync(path, 'clip')
    await expect.poll(async () => (await hits()).length, patient).toBe(1)
    writeFileSync(path, 'clip with two flights')
    await expect.poll(async () => (await hits()).length, patient).toBe(2)
    expect(await clips()).toMatchObject([{ name: 'new.mp4', problem: null }])

    const { hitId } = (await hits())[0]!
    await open.call('hits.edit', { hitId, edit: { kind: 'set-sense', sense: 'clockwise' } })
    await open.call('hits.note', { hitId, notes: 'the third drive' })
    writeFileSync(path, 'clip of another hit altogether')
    await expect.poll(async () => (await clips())[0]?.problem?.code, patient).toBe('clip-not-same')
    const looked = open.probed.length
    await new Promise(done => setTimeout(done, 200))
    expect(open.probed).toHaveLength(looked)
    expect((await hits()).map(({ notes }) => notes).sort()).toEqual(['', 'the third drive'])
  })

  test('is watched again after a restart, and what came meanwhile is taken', async () => {
    const open = await watched()
    await open.parts.watcher.close()
    writeFileSync(join(open.in, 'meanwhile.mp4'), 'clip')
    const restarted = createWatcher({ ...open.parts, everyMilliseconds: 20 })
    restarted.goOn()
    await expect.poll(() => restarted.state(open.sessionId).arrived, patient).toEqual(['meanwhile.mp4'])
    await restarted.close()
  })

  test('that is gone says so, and one that never was is refused', async () => {
    const open = await watched()
    rmSync(open.in, { recursive: true })
    await expect.poll(async () => (await open.state()).problem, patient).toBe('The folder is not there now.')
    await expect(
      open.call('watch.set', { sessionId: open.sessionId, folder: '/no/such' }),
    ).rejects.toMatchObject({ code: 'folder-not-there' })
  })
})
