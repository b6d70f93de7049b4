import { readdirSync, rmSync } from 'node:fs'
import { join } from 'node:path'
import { expect, it, onTestFinished } from 'vitest'
import { openWorkspace } from '../../electron/store/open-workspace.ts'
import { rawDatabase } from '../electron/store/raw-database.ts'
import { fillUp, smallDisk } from '../electron/store/small-disk.ts'
import { withOneHit } from '../electron/store/temporary.ts'
import { codeOf, hostOn, ownFolder, withMarkedClip } from './open-host.ts'

const sighting = (frame: number) => ({
  kind: 'place-sighting' as const,
  sighting: { kind: 'point' as const, frame, mark: 'logo', xPx: 400 + frame, yPx: 200 },
})

it('a clock that is set back changes no order and loses no step', () => {
  const file = join(ownFolder(), 'w.sqlite')
  let hours = 1000
  const workspace = openWorkspace(file, { now: () => new Date(Date.UTC(2026, 4, 31, hours--)) })
  onTestFinished(() => workspace.close())
  const { clipId, hitId } = withOneHit(workspace)
  const second = workspace.createHit(clipId, { fromFrame: 0, toFrame: 20 }).row.hitId
  for (const frame of [1, 2, 3]) workspace.saveEdit(hitId, sighting(frame))
  expect(workspace.undo(hitId).marks.sightings.map(({ frame }) => frame)).toEqual([1, 2])
  expect(workspace.redo(hitId).marks.sightings.map(({ frame }) => frame)).toEqual([1, 2, 3])
  for (const target of ['/a.sqlite', '/b.sqlite', '/a.sqlite']) workspace.rememberTarget(target)
  expect(workspace.recentTargets().toSorted()).toEqual(['/a.sqlite', '/b.sqlite'])
  expect(workspace.hits({}).map(row => row.hitId)).toContain(second)
})

it('two windows on one hit take turns: every click of both stands, in one order', async () => {
  const folder = ownFolder()
  const file = join(folder, 'w.sqlite')
  const one = hostOn(file)
  const two = hostOn(file)
  const { hitId } = await withMarkedClip(folder, one.ask)
  const clicks = Array.from({ length: 20 }, (_, i) =>
    (i % 2 === 0 ? one : two).ask('hits.edit', { hitId, edit: sighting(5 + i) }),
  )
  await Promise.all(clicks)
  const [seenByOne, seenByTwo] = await Promise.all([
    one.ask('hits.open', { hitId }),
    two.ask('hits.open', { hitId }),
  ])
  expect(seenByOne).toEqual(seenByTwo)
  expect(seenByOne.marks.sightings.map(({ frame }) => frame)).toEqual(
    Array.from({ length: 23 }, (_, i) => 2 + i),
  )
  for (let undone = 0; undone < 23; undone++) await (undone % 2 === 0 ? two : one).ask('hits.undo', { hitId })
  expect((await one.ask('hits.open', { hitId })).canUndo).toBe(false)
  expect(rawDatabase(file).all('PRAGMA integrity_check')).toEqual([{ integrity_check: 'ok' }])
})

it('a workspace that another program holds refuses the click, and takes it when that is done', async () => {
  const folder = ownFolder()
  const file = join(folder, 'w.sqlite')
  const { ask } = hostOn(file)
  const { hitId } = await withMarkedClip(folder, ask)
  const other = rawDatabase(file).run('BEGIN IMMEDIATE')
  expect(await codeOf(ask('hits.edit', { hitId, edit: sighting(6) }))).toBe('workspace-locked')
  other.run('ROLLBACK')
  expect((await ask('hits.open', { hitId })).marks.sightings).toHaveLength(3)
  expect((await ask('hits.edit', { hitId, edit: sighting(6) })).marks.sightings).toHaveLength(4)
})

it('a disk that fills up while a clip is dropped leaves nothing half done', async ({ skip }) => {
  const disk = smallDisk()
  if (!disk) return skip('only root on Linux can mount a small disk')
  const file = join(disk, 'w.sqlite')
  const { host, ask } = hostOn(file)
  await ask('paddles.create', { name: 'Heron 14', notes: '' })
  const dropped = host.receive({
    name: 'drive.mp4',
    signal: new AbortController().signal,
    bytes: (async function* () {
      for (let i = 0; i < 40; i++) yield Buffer.alloc(65_536)
    })(),
  })
  expect(await codeOf(dropped)).toBe('disk-full')
  expect(readdirSync(join(disk, 'clips'))).toEqual([])
  fillUp(disk)
  expect(await codeOf(ask('paddles.create', { name: 'Avocet 16', notes: '' }))).toBe('disk-full')
  rmSync(join(disk, 'filler'))
  expect((await ask('paddles.list', {})).map(({ name }) => name)).toEqual(['Heron 14'])
  await ask('paddles.create', { name: 'Avocet 16', notes: '' })
})
