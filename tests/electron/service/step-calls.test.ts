import { describe, expect, it } from 'vitest'
import type { SingleEdit } from '../../../core/contract/bench.ts'
import type { StepCall } from '../../../core/contract/calls.ts'
import { openService } from './open-service.ts'

const put = (id: string): SingleEdit => ({ kind: 'put-mark', mark: { id, kind: 'point', symmetryOrder: 1 } })

async function hit() {
  const opened = openService()
  const { call, file, session } = opened
  const { id: sessionId } = await session()
  const { clips } = await call('clips.add', { sessionId, paths: [file('a.mp4', 'clip a')] })
  const { row } = await call('hits.create', { clipId: clips[0]!.id, window: { fromFrame: 5, toFrame: 30 } })
  const { hitId } = row
  /** Without the one that a new hit has. */
  const marks = () => opened.workspace.hit(hitId).marks.marks.flatMap(({ id }) => (id === 'logo' ? [] : [id]))
  /** As the page sends it itself. */
  const send = (callId: string, edit: SingleEdit) => call('hits.edit', { hitId, edit }, { callId })
  const step = (callId: string, edit: SingleEdit): StepCall => ({
    callId,
    name: 'hits.edit',
    input: { hitId, edit },
  })
  const handOver = (...steps: StepCall[]) => call('steps.handOver', { steps })
  return { ...opened, hitId, marks, send, step, handOver }
}

describe('steps handed over by a page that was left', () => {
  it('are done in their order, undo and redo among them', async () => {
    const { hitId, marks, step, handOver } = await hit()
    const undo = (callId: string): StepCall => ({ callId, name: 'hits.undo', input: { hitId } })
    await handOver(step('1', put('a')), step('2', put('b')), undo('3'), step('4', put('c')))
    expect(marks()).toEqual(['a', 'c'])
  })

  it.each([
    ['came through before', (sent: () => Promise<unknown>, handed: () => Promise<unknown>) => [sent, handed]],
    ['comes through afterwards', (sent, handed) => [handed, sent]],
  ] as [string, (...both: (() => Promise<unknown>)[]) => (() => Promise<unknown>)[]][])(
    'are each done once where the page’s own call %s',
    async (_, order) => {
      const { workspace, hitId, marks, send, step, handOver } = await hit()
      const sent = () => send('1', put('a'))
      const handed = () => handOver(step('1', put('a')), step('2', put('b')))
      // Both are on their way at once.
      await Promise.allSettled(order(sent, handed).map(ask => ask()))
      expect(marks()).toEqual(['a', 'b'])
      workspace.undo(hitId)
      workspace.undo(hitId)
      expect(workspace.hit(hitId)).toMatchObject({ canUndo: false })
    },
  )

  it('end at one that is refused: what was built on it is not done', async () => {
    const { marks, send, step, handOver } = await hit()
    const outside: SingleEdit = {
      kind: 'place-outline',
      outline: { frame: 9999, xPx: 1, yPx: 1, radiusPx: 3 },
    }
    await expect(handOver(step('1', outside), step('2', put('b')))).rejects.toMatchObject({
      code: 'frame-outside-clip',
    })
    await expect(send('3', outside)).rejects.toMatchObject({ code: 'frame-outside-clip' })
    await handOver(step('3', outside), step('4', put('b')))
    expect(marks()).toEqual([])
  })

  it('are held to the table of calls', async () => {
    const { handOver } = await hit()
    const spoiled: StepCall = {
      callId: '1',
      name: 'hits.edit',
      input: { hitId: 'h', edit: { kind: 'drop' } },
    }
    await expect(handOver(spoiled)).rejects.toMatchObject({ code: 'bad-payload' })
  })

  it('leave calls without an id as they are', async () => {
    const { call, hitId, marks } = await hit()
    await call('hits.edit', { hitId, edit: put('a') })
    await call('hits.edit', { hitId, edit: put('b') })
    expect(marks()).toEqual(['a', 'b'])
  })
})
