import { describe, expect, it } from 'vitest'
import type { Edit } from '../../../core/contract/bench.ts'
import { methodVersion } from '../../../core/spin/method-version.ts'
import { openService } from './open-service.ts'
import { sessionDetails } from './stand-in-host.ts'

/** A hit with a logo followed as a direction, which turns so many degrees a frame (method: arithmetic table). */
async function hitTurning(degPerFrame: number, frames = 12, details = sessionDetails) {
  const opened = openService()
  const { call, file } = opened
  const { id: sessionId } = await call('sessions.create', { details })
  const { clips } = await call('clips.add', { sessionId, paths: [file('a.mp4', 'clip a')] })
  const clipId = clips[0]!.id
  const window = { fromFrame: 5, toFrame: 30 }
  const { row } = await call('hits.create', { clipId, window })
  const { hitId } = row
  const edit = (edit: Edit) => call('hits.edit', { hitId, edit })
  opened.workspace.saveEdit(hitId, {
    kind: 'put-mark',
    mark: { id: 'logo', kind: 'direction', symmetryOrder: 1 },
  })
  for (let i = 0; i < frames; i++)
    opened.workspace.saveEdit(hitId, { kind: 'place-sighting', sighting: sighting(5 + i, degPerFrame * i) })
  await call('hits.open', { hitId })
  return { ...opened, sessionId, clipId, hitId, edit }
}
const sighting = (frame: number, bearing: number) => ({
  kind: 'direction' as const,
  frame,
  mark: 'logo',
  bearingDeg: bearing % 360,
})
const accept: Edit = { kind: 'decide', verdict: { state: 'accepted', reason: '' } }

describe('a hit’s reading', () => {
  it('follows every edit, undo and redo, with the version of its method', async () => {
    const { call, edit, hitId } = await hitTurning(58.25)
    const read = await call('hits.open', { hitId })
    expect(read.row.reading!.rpm).toBeCloseTo(2330, 0)
    expect(read.row).toMatchObject({ methodVersion, stale: false })
    const fewer = await edit({ kind: 'remove-sighting', frame: 16, mark: 'logo' })
    expect(fewer.row.reading!.framesUsed).toBe(11)
    expect((await call('hits.undo', { hitId })).row.reading!.framesUsed).toBe(12)
    expect((await call('hits.redo', { hitId })).row.reading!.framesUsed).toBe(11)
    const { row } = await call('hits.open', { hitId })
    expect((await call('hits.list', {}))[0]!.reading!.rpm).toBe(row.reading!.rpm)
  })

  it('says from the first mark on why there is no figure yet', async () => {
    const { call, hitId } = await hitTurning(58.25, 1)
    const { reading } = (await call('hits.open', { hitId })).row
    expect(reading!.rpm).toBeNull()
    expect(reading!.reasons[0]).toMatch(/\w/)
  })

  it('follows the capture rate that a person says, and its taking back', async () => {
    const { call, clipId, hitId } = await hitTurning(58.25)
    await call('clips.setCaptureFps', { clipId, captureFps: 120 })
    const halved = (await call('hits.list', { clipId }))[0]!.reading!
    expect(halved.rpm).toBeCloseTo(1165, 0)
    await call('clips.setCaptureFps', { clipId, captureFps: null })
    expect((await call('hits.open', { hitId })).row.reading!.rpm).toBeCloseTo(2330, 0)
  })

  it('follows the session’s limits', async () => {
    const { call, sessionId, hitId } = await hitTurning(58.25)
    await call('sessions.update', { sessionId, details: { ...sessionDetails, maxRpm: 20_000 } })
    expect((await call('hits.open', { hitId })).row.reading!.candidates.length).toBeGreaterThan(1)
  })

  it('is made again where a kill came between the marks and the reading', async () => {
    const { call, workspace, hitId } = await hitTurning(58.25)
    workspace.saveEdit(hitId, { kind: 'place-sighting', sighting: sighting(17, 58.25 * 12) })
    expect(workspace.hit(hitId).row.stale).toBe(true)
    const { row } = await call('hits.open', { hitId })
    expect([row.stale, row.reading!.framesUsed]).toEqual([false, 13])
  })

  it('tells the page what changed', async () => {
    const { events, hitId, edit } = await hitTurning(58.25)
    events.length = 0
    await edit({ kind: 'set-sense', sense: 'clockwise' })
    expect(events).toEqual([{ kind: 'changed', what: 'hits', id: hitId }])
  })
})

describe('accepting a hit', () => {
  it('is done where the figure is clear', async () => {
    const { edit } = await hitTurning(58.25)
    const { row } = await edit(accept)
    expect(row).toMatchObject({ verdict: { state: 'accepted' }, reading: { flag: 'clear' } })
  })

  it('is refused without a figure, with the way out', async () => {
    const { call, edit, hitId } = await hitTurning(58.25, 1)
    await expect(edit(accept)).rejects.toMatchObject({
      code: 'edit-refused',
      hint: expect.stringContaining('Mark'),
    })
    expect((await call('hits.open', { hitId })).marks.verdict.state).toBe('open')
  })

  it('is refused where another rate fits as well, until a person has chosen one and said why', async () => {
    // 233° a frame at 60 fps is 2330 rpm or 1270 the other way: the arithmetic table of the method
    const details = { ...sessionDetails, camera: { ...sessionDetails.camera, captureFps: 60 } }
    const { call, edit, clipId, hitId } = await hitTurning(233, 12, details)
    await call('clips.setCaptureFps', { clipId, captureFps: 60 })
    const { reading } = (await call('hits.open', { hitId })).row
    expect(reading!.flag).toBe('ambiguous')
    expect(reading!.candidates.map(c => Math.round(c.rpm))).toEqual(expect.arrayContaining([1270, 2330]))
    await expect(edit(accept)).rejects.toMatchObject({
      code: 'edit-refused',
      hint: 'Choose one of the candidates and say why, or hold the hit back.',
    })
    await edit({ kind: 'settle', settled: { rpm: 2330, sense: 'clockwise', reason: 'a topspin drive' } })
    const { row } = await edit(accept)
    expect(row.verdict.state).toBe('accepted')
    expect(row.reading!.rpm).toBeCloseTo(2330, 0)
  })

  it('never hinders holding it back', async () => {
    const { edit } = await hitTurning(58.25, 1)
    const { row } = await edit({ kind: 'decide', verdict: { state: 'held-back', reason: 'no logo' } })
    expect(row.verdict).toEqual({ state: 'held-back', reason: 'no logo' })
  })
})

describe('frames outside the clip', () => {
  it.each<[string, Edit]>([
    ['a window', { kind: 'set-window', window: { fromFrame: 5, toFrame: 60 } }],
    ['an outline', { kind: 'place-outline', outline: { frame: 60, xPx: 9, yPx: 9, radiusPx: 9 } }],
    ['a sighting', { kind: 'place-sighting', sighting: sighting(60, 0) }],
  ])('are refused: %s', async (_, given) => {
    const { call, edit, hitId } = await hitTurning(58.25, 3)
    const before = await call('hits.open', { hitId })
    await expect(edit(given)).rejects.toMatchObject({ code: 'frame-outside-clip' })
    expect((await call('hits.open', { hitId })).marks).toEqual(before.marks)
  })

  it('are refused for a new hit, as is a window without a frame', async () => {
    const { call, clipId } = await hitTurning(58.25, 0)
    const create = (fromFrame: number, toFrame: number) =>
      call('hits.create', { clipId, window: { fromFrame, toFrame } })
    await expect(create(0, 60)).rejects.toMatchObject({ code: 'frame-outside-clip' })
    await expect(create(9, 8)).rejects.toMatchObject({ code: 'window-empty' })
    expect(await call('hits.list', { clipId })).toHaveLength(1)
  })
})

it('names what is not in the workspace', async () => {
  const { call } = openService()
  for (const asked of [
    call('hits.open', { hitId: 'x' }),
    call('clips.open', { clipId: 'x' }),
    call('sessions.remove', { sessionId: 'x' }),
    call('paddles.addSetUp', { paddleId: 'x', name: 'a', notes: '' }),
  ])
    await expect(asked).rejects.toMatchObject({ code: 'not-in-workspace' })
})
