import { describe, expect, it } from 'vitest'
import { openService } from './open-service.ts'

/** A session with one hit of `marks` logo places around a ball, and what is known of each. */
async function marked(marks: number) {
  const opened = openService()
  const { call, file, session } = opened
  const { id: sessionId } = await session()
  const { clips } = await call('clips.add', { sessionId, paths: [file('a.mp4', 'clip a')] })
  const clipId = clips[0]!.id
  const { row } = await call('hits.create', { clipId, window: { fromFrame: 0, toFrame: 40 } })
  const { hitId } = row
  await call('hits.edit', {
    hitId,
    edit: { kind: 'place-outline', outline: { frame: 0, xPx: 200, yPx: 100, radiusPx: 40 } },
  })
  for (let frame = 0; frame < marks; frame++)
    await call('hits.edit', {
      hitId,
      edit: {
        kind: 'place-sighting',
        sighting: { kind: 'point', frame, mark: 'logo', xPx: 220, yPx: 100 + frame / 8 },
      },
    })
  return { ...opened, sessionId, hitId }
}

describe('a marking study', () => {
  it('shows each mark twice, and nothing of where it was marked before', async () => {
    const { call, sessionId } = await marked(14)
    expect(await call('study.list', { sessionId })).toEqual({ markable: 14, hits: 1, studies: [] })
    const study = await call('study.begin', { sessionId, person: ' Ada ', items: 12 })
    expect(study.tasks).toHaveLength(24)
    expect(new Set(study.tasks.map(task => task.frame)).size).toBe(12)
    expect(Object.keys(study.tasks[0]!).toSorted()).toEqual(['clipId', 'frame', 'hitId', 'mark', 'outline'])
    expect(JSON.stringify(study)).not.toContain('220')
    expect(study.tasks[0]!.outline).toEqual({ xPx: 200, yPx: 100, radiusPx: 40 })
  })

  it('goes on where it was left, in the same order, and takes a click back', async () => {
    const { call, sessionId } = await marked(12)
    const { id: studyId, tasks } = await call('study.begin', { sessionId, person: 'Ada', items: 12 })
    const seen = { kind: 'point', xPx: 220, yPx: 101 } as const
    expect(await call('study.mark', { studyId, place: 0, seen })).toEqual({ done: 1 })
    expect(await call('study.mark', { studyId, place: 1, seen: { kind: 'unseen' } })).toEqual({ done: 2 })
    await expect(call('study.mark', { studyId, place: 1, seen })).rejects.toMatchObject({
      code: 'edit-refused',
    })
    expect(await call('study.takeBack', { studyId })).toEqual({ done: 1 })
    expect(await call('study.open', { studyId })).toMatchObject({ done: 1, tasks, person: 'Ada' })
    expect((await call('study.list', { sessionId })).studies).toMatchObject([{ tasks: 24, done: 1 }])
  })

  it('ends in figures: repeatability, two people’s bias, and each against the bench', async () => {
    const { call, sessionId } = await marked(12)
    for (const [person, shift] of [
      ['Ada', 0],
      ['Ben', 2],
    ] as const) {
      const study = await call('study.begin', { sessionId, person, items: 12 })
      for (const [place, { frame }] of study.tasks.entries()) {
        // Two clicks of one mark lie 1 px to either side: s_r = √(Σd²/2n) = √2 px along x, 0 along y.
        const xPx = 220 + shift + (place < 12 ? 1 : -1)
        await call('study.mark', {
          studyId: study.id,
          place,
          seen: { kind: 'point', xPx, yPx: 100 + frame / 8 },
        })
      }
    }
    const report = await call('study.report', { sessionId })
    expect(report.people.map(({ person, pairs }) => [person, pairs])).toEqual([
      ['Ada', 12],
      ['Ben', 12],
    ])
    expect(report.people[0]!.xPx).toBeCloseTo(Math.SQRT2, 9)
    expect(report.people[0]!.yPx).toBeCloseTo(0, 9)
    // Along one line only: s² of one coordinate is half of 2 px².
    expect(report.people[0]!.px!.standardDeviation).toBeCloseTo(1, 9)
    expect(report.bias[0]).toMatchObject({ person: 'Ben', against: 'Ada', items: 12 })
    expect(report.bias[0]!.xPx!.mean).toBeCloseTo(2, 9)
    expect(report.bench.map(({ xPx }) => Math.round(xPx!.mean))).toEqual([0, 2])
    expect(report.dots).toHaveLength(24)
  })

  it('is refused where nothing is marked, and gone with its session', async () => {
    const { call, sessionId } = await marked(0)
    await expect(call('study.begin', { sessionId, person: 'Ada', items: 12 })).rejects.toMatchObject({
      code: 'edit-refused',
    })
    const full = await marked(12)
    const { id: studyId } = await full.call('study.begin', {
      sessionId: full.sessionId,
      person: 'Ada',
      items: 12,
    })
    await full.call('sessions.remove', { sessionId: full.sessionId })
    await expect(full.call('study.open', { studyId })).rejects.toMatchObject({ code: 'not-in-workspace' })
  })

  it('keeps what was shown when the hit is removed', async () => {
    const { call, sessionId, hitId } = await marked(12)
    const { id: studyId } = await call('study.begin', { sessionId, person: 'Ada', items: 12 })
    await call('hits.remove', { hitId })
    expect((await call('study.open', { studyId })).tasks).toHaveLength(24)
    expect((await call('study.list', { sessionId })).markable).toBe(0)
  })
})
