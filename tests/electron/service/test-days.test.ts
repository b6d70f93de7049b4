import { describe, expect, it, vi } from 'vitest'
import { openService } from './open-service.ts'
import { sessionDetails } from './stand-in-host.ts'

const day = {
  paddles: ['Heron', 'Venn'],
  reference: 'Hall paddle',
  hitsEach: 2,
  blocks: 2,
  ballChangeAfter: null,
  seed: 3,
}
const begin = { details: sessionDetails, day, clipHolds: 'turn' as const }

describe('the day’s session', () => {
  it('is ticked off by clips that are added, in the order of their names', async () => {
    const { call, file, events } = openService()
    const { id } = await call('day.begin', begin)
    expect(events).toContainEqual({ kind: 'changed', what: 'sessions', id })
    // As a chooser may hand them over; a camera numbers its clips.
    const paths = ['IMG_10.mp4', 'IMG_9.mp4', 'IMG_2.mp4'].map(name => file(name, `clip ${name}`))
    await call('clips.add', { sessionId: id, paths })
    const state = await call('day.state', { sessionId: id })
    expect(state!.turns.slice(0, 3).map(({ clips }) => clips[0]!.name)).toEqual([
      'IMG_2.mp4',
      'IMG_9.mp4',
      'IMG_10.mp4',
    ])
    expect(state!.next).toBe(3)
  })

  it('does not count what is no clip, nor the same contents twice', async () => {
    const { call, file } = openService()
    const { id } = await call('day.begin', begin)
    await call('clips.add', { sessionId: id, paths: [file('1.mp4', 'text')] })
    const state = await call('day.state', { sessionId: id })
    expect(state).toMatchObject({
      next: 0,
      turns: [{ clips: [{ trouble: expect.any(String) }] }, {}, {}, {}, {}, {}],
    })
    await call('clips.add', { sessionId: id, paths: [file('2.mp4', 'clip a')] })
    await call('clips.add', { sessionId: id, paths: [file('3.mp4', 'clip a')] })
    expect((await call('day.state', { sessionId: id }))!.next).toBe(1)
  })

  it('is ticked off by a watched folder', async () => {
    const { call, file, folder } = openService()
    const { id } = await call('day.begin', begin)
    await call('watch.set', { sessionId: id, folder })
    file('new.mp4', 'clip new')
    await vi.waitFor(async () => expect((await call('day.state', { sessionId: id }))!.next).toBe(1), 20_000)
  })

  it('gives hits that are found to the turn’s paddle; another place takes them along', async () => {
    const { call, file, events } = openService()
    const { id } = await call('day.begin', begin)
    const { clips } = await call('clips.add', { sessionId: id, paths: [file('1.mp4', 'clip two')] })
    const clipId = clips[0]!.id
    await call('clips.read', { clipId })
    const { turns } = (await call('day.state', { sessionId: id }))!
    const paddles = async () => (await call('hits.list', { clipId })).map(({ setUpId }) => setUpId)
    expect(await paddles()).toEqual([turns[0]!.setUpId, turns[0]!.setUpId])
    const state = await call('day.place', { clipId, place: 1 })
    expect(state.next).toBe(0)
    expect(await paddles()).toEqual([turns[1]!.setUpId, turns[1]!.setUpId])
    expect(events).toContainEqual({ kind: 'changed', what: 'clips', id: clipId })
    expect(await call('day.leaveOut', { sessionId: id, place: 0, leftOut: true })).toMatchObject({ next: 2 })
  })

  it('is none for any other session', async () => {
    const { call, session } = openService()
    expect(await call('day.state', { sessionId: (await session()).id })).toBeNull()
  })
})
