import { describe, expect, it } from 'vitest'
import type { BenchHit } from '../../../core/contract/workspace.ts'
import { SaveQueue, type Step } from '../../../renderer/screens/bench/state/save-queue.ts'

const settle = () => new Promise(done => setTimeout(done, 0))
const hidden = (frame: number): Step => ({
  place: 'stage',
  save: { kind: 'place-sighting', sighting: { kind: 'hidden', frame, mark: 'logo' } },
})

/** A host that answers when the test says so. */
function heldHost() {
  const sent: Step['save'][] = []
  const answers: { give: () => void; refuse: (problem: unknown) => void }[] = []
  const saved: BenchHit[] = []
  const failed: { problem: unknown; step: Step }[] = []
  const queue = new SaveQueue(
    save => {
      sent.push(save)
      return new Promise((resolve, reject) =>
        answers.push({ give: () => resolve({ canUndo: true } as BenchHit), refuse: reject }),
      )
    },
    { saved: hit => saved.push(hit), failed: (problem, step) => failed.push({ problem, step }) },
  )
  return { queue, sent, answers, saved, failed }
}

describe('steps on their way to the host', () => {
  it('are sent one at a time, in the order they were made', async () => {
    const { queue, sent, answers, saved } = heldHost()
    for (const frame of [1, 2, 3]) queue.push(hidden(frame))
    await settle()
    expect(sent).toHaveLength(1)
    answers[0]!.give()
    await settle()
    expect(sent).toEqual([hidden(1).save, hidden(2).save])
    expect(queue.waiting).toEqual([hidden(2), hidden(3)])
    expect(saved).toHaveLength(1)
  })

  it('are dropped together after one was refused, and the page is told which', async () => {
    const { queue, sent, answers, failed } = heldHost()
    for (const frame of [1, 2, 3]) queue.push(hidden(frame))
    answers[0]!.refuse('the disk is full')
    await settle()
    expect(failed).toEqual([{ problem: 'the disk is full', step: hidden(1) }])
    expect(queue.waiting).toEqual([])
    expect(sent).toHaveLength(1)
    queue.push(hidden(4))
    await settle()
    expect(sent.at(-1)).toEqual(hidden(4).save)
  })
})
