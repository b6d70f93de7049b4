import { describe, expect, it } from 'vitest'
import type { StepCall } from '../../../core/contract/calls.ts'
import type { BenchHit } from '../../../core/contract/workspace.ts'
import { guardLeaving } from '../../../renderer/state/guard-leaving.ts'
import { SaveQueue } from '../../../renderer/state/save-queue.ts'
import { manyOf } from '../stand-in-data.ts'
import { standInHost } from '../stand-in-host.ts'

const settle = () => new Promise(done => setTimeout(done, 0))
const hidden = (frame: number): Omit<StepCall, 'callId'> => ({
  name: 'hits.edit',
  input: {
    hitId: 'h',
    edit: { kind: 'place-sighting', sighting: { kind: 'hidden', frame, mark: 'logo' } },
  },
})

/** A host that answers when the test says so. */
function heldHost() {
  const answers: { give: () => void; refuse: (problem: unknown) => void }[] = []
  const saved: BenchHit[] = []
  const failed: { problem: unknown; step: Omit<StepCall, 'callId'> }[] = []
  const ids: (string | undefined)[] = []
  const host = standInHost(manyOf({ sessions: 1, clips: 1, hits: 0 }), {
    'hits.edit': (_, { callId }) => {
      ids.push(callId)
      return new Promise((resolve, reject) =>
        answers.push({ give: () => resolve({ canUndo: true } as BenchHit), refuse: reject }),
      )
    },
  })
  const queue = new SaveQueue<Omit<StepCall, 'callId'>, BenchHit>(host, step => step, {
    saved: hit => saved.push(hit),
    failed: (problem, step) => failed.push({ problem, step }),
  })
  const sent = () => host.seen.map(({ name, input }) => ({ name, input }))
  return { host, queue, sent, answers, saved, failed, ids }
}

describe('steps on their way to the host', () => {
  it('are sent one at a time, in the order they were made', async () => {
    const { queue, sent, answers, saved } = heldHost()
    for (const frame of [1, 2, 3]) queue.push(hidden(frame))
    await settle()
    expect(sent()).toHaveLength(1)
    answers[0]!.give()
    await settle()
    expect(sent()).toEqual([hidden(1), hidden(2)])
    expect(queue.waiting).toEqual([hidden(2), hidden(3)])
    expect(saved).toHaveLength(1)
    answers[1]!.give()
    await settle()
    answers[2]!.give()
    await queue.written()
    expect(saved).toHaveLength(3)
  })

  it('are dropped together after one was refused, and the page is told which', async () => {
    const { queue, sent, answers, failed } = heldHost()
    for (const frame of [1, 2, 3]) queue.push(hidden(frame))
    answers[0]!.refuse('the disk is full')
    await queue.written()
    expect(failed).toEqual([{ problem: 'the disk is full', step: hidden(1) }])
    expect(queue.waiting).toEqual([])
    expect(sent()).toHaveLength(1)
    queue.push(hidden(4))
    await settle()
    expect(sent().at(-1)).toEqual(hidden(4))
    answers[1]!.give()
    await queue.written()
  })
})

describe('a page that goes away', () => {
  /** A window whose events the test sends. */
  function page() {
    const target = new EventTarget() as EventTarget & Window
    const leave = (name: string) => {
      const event = new Event(name, { cancelable: true })
      target.dispatchEvent(event)
      return event
    }
    return { target, leave }
  }

  it('hands over what waits, the first of it under the id that it was sent with, and nothing twice', async () => {
    const { host, queue, answers, ids } = heldHost()
    const { target, leave } = page()
    guardLeaving(host, target)
    leave('pagehide')
    expect(host.handed).toEqual([])
    for (const frame of [1, 2, 3]) queue.push(hidden(frame))
    leave('pagehide')
    const [calls] = host.handed
    expect(calls!.map(({ name, input }) => ({ name, input }))).toEqual([1, 2, 3].map(hidden))
    expect(calls![0]!.callId).toBe(ids[0])
    expect(new Set(calls!.map(({ callId }) => callId)).size).toBe(3)
    for (const at of [0, 1, 2]) {
      answers[at]!.give()
      await settle()
    }
    await queue.written()
    leave('pagehide')
    expect(host.handed).toHaveLength(1)
  })

  it('asks the person to stay only where what waits is not safe', async () => {
    const { host, queue, answers } = heldHost()
    const { target, leave } = page()
    guardLeaving(host, target)
    queue.push(hidden(1))
    expect(leave('beforeunload').defaultPrevented).toBe(false)
    host.areSafe = calls => calls.length < 1
    expect(leave('beforeunload').defaultPrevented).toBe(true)
    answers[0]!.give()
    await queue.written()
  })

  it('is waited for by a shell that can, until the last step is saved', async () => {
    const { host, queue, answers } = heldHost()
    guardLeaving(host, page().target)
    queue.push(hidden(1))
    queue.push(hidden(2))
    let isWritten = false
    const written = host.closing!().then(() => {
      isWritten = true
    })
    answers[0]!.give()
    await settle()
    expect(isWritten).toBe(false)
    answers[1]!.give()
    await written
    expect(queue.waiting).toEqual([])
  })
})
