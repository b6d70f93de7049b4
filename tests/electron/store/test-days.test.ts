import { describe, expect, it } from 'vitest'
import { testDayOf } from '../../../core/planning/test-day.ts'
import type { Workspace } from '../../../electron/store/workspace.ts'
import { session } from '../../core/marking/sample-records.ts'
import { probeOf, temporaryWorkspace, thrownBy } from './temporary.ts'

const day = {
  paddles: ['Heron 14', 'Heron 14 / weighted', 'Venn'],
  reference: 'Hall paddle',
  hitsEach: 4,
  blocks: 2,
  ballChangeAfter: 6,
  seed: 7,
}
let made = 0
const add = (
  workspace: Workspace,
  sessionId: string,
  found: Partial<Parameters<Workspace['addClip']>[1]> = {},
) => {
  const path = `/clips/${++made}.mp4`
  const probe = probeOf({ path, sha256: String(made).padStart(64, '0') })
  return workspace.addClip(sessionId, { path, probe, problem: null, timestampsSeconds: [0, 1], ...found }).id
}
function planned(clipHolds: 'hit' | 'turn' = 'hit') {
  const holder = temporaryWorkspace()
  const { workspace } = holder
  const { id } = workspace.createPaddle({ name: 'heron 14', notes: '' })
  const sessionId = workspace.createSession(session).id
  workspace.planDay(sessionId, day, clipHolds)
  return { ...holder, workspace, reopen: holder.reopen, heronId: id, sessionId }
}

describe('a test day', () => {
  it('stands in the planned order, its paddles found by name or made with their set-ups', () => {
    const { workspace, sessionId, heronId } = planned()
    const turns = workspace.testDay(sessionId)!.turns
    const inOrder = testDayOf(day).flatMap(({ turns }) => turns)
    expect(turns.map(({ hits, freshBall, isReference }) => ({ hits, freshBall, isReference }))).toEqual(
      inOrder.map(({ hits, freshBall, isReference }) => ({ hits, freshBall, isReference })),
    )
    expect(turns.map(({ block }) => block)).toEqual([0, 0, 0, 0, 1, 1, 1, 1])
    // Both lines of the Heron are the paddle that was there, in two set-ups.
    const names = workspace.paddles().map(({ name, setUps }) => [name, setUps.map(each => each.name)])
    expect(names).toEqual([
      ['Hall paddle', ['stock']],
      ['heron 14', ['stock', 'weighted']],
      ['Venn', ['stock']],
    ])
    const heron = workspace.paddles().find(({ id }) => id === heronId)!
    expect(turns.filter(({ setUpId }) => heron.setUps.some(({ id }) => id === setUpId))).toHaveLength(4)
  })

  it('ticks itself off as clips come in, and stands the same after a restart', () => {
    const { workspace, reopen, sessionId } = planned()
    const clips = [add(workspace, sessionId), add(workspace, sessionId), add(workspace, sessionId)]
    const state = reopen().testDay(sessionId)!
    // Two hits a turn: two clips for the first, the third begins the second.
    expect(state.turns[0]!.clips.map(({ clipId }) => clipId)).toEqual(clips.slice(0, 2))
    expect(state.turns[1]!.clips.map(({ clipId }) => clipId)).toEqual(clips.slice(2))
    expect(state.next).toBe(1)
  })

  it('filmed in one clip a turn goes on to the next turn with every clip', () => {
    const { workspace, sessionId } = planned('turn')
    for (let i = 0; i < 8; i++) add(workspace, sessionId)
    expect(workspace.testDay(sessionId)).toMatchObject({ next: null, unplaced: [] })
    add(workspace, sessionId)
    expect(workspace.testDay(sessionId)!.unplaced).toHaveLength(1)
  })

  it('gives a hit to the paddle of its clip’s turn, and along with it to another', () => {
    const { workspace, sessionId } = planned()
    const clipId = add(workspace, sessionId)
    const hitId = workspace.createHit(clipId, { fromFrame: 0, toFrame: 1 }).row.hitId
    const own = workspace.createHit(clipId, { fromFrame: 0, toFrame: 1 }).row.hitId
    const { turns } = workspace.testDay(sessionId)!
    expect(workspace.hit(hitId).row.setUpId).toBe(turns[0]!.setUpId)
    const other = turns.findIndex(({ setUpId }) => setUpId !== turns[0]!.setUpId)
    const third = turns.find(({ setUpId }) => ![turns[0]!.setUpId, turns[other]!.setUpId].includes(setUpId))!
    workspace.assignHit(own, third.setUpId)

    const state = workspace.placeClip(clipId, other)
    expect(workspace.hit(hitId).row.setUpId).toBe(turns[other]!.setUpId)
    // A person said whose it is.
    expect(workspace.hit(own).row.setUpId).toBe(third.setUpId)
    expect(state).toMatchObject({ next: 0 })
    workspace.placeClip(clipId, null)
    expect(workspace.hit(hitId).row.setUpId).toBeNull()
    expect(workspace.testDay(sessionId)!.unplaced.map(each => each.clipId)).toEqual([clipId])
  })

  it('does not count a clip that cannot be measured, and says why', () => {
    const { workspace, sessionId } = planned('turn')
    const mixed = {
      code: 'mixed-frames',
      message: 'Pictures are mixed.',
      effect: 'refuse' as const,
      todo: 'Get the file.',
    }
    const unknown = { ...mixed, code: 'capture-rate-unknown' }
    add(workspace, sessionId, { probe: probeOf({ sha256: 'f'.repeat(64), warnings: [mixed] }) })
    const { turns, next } = workspace.testDay(sessionId)!
    expect(next).toBe(0)
    expect(turns[0]!.clips[0]!.trouble).toBe('Pictures are mixed. Get the file.')
    add(workspace, sessionId, { probe: probeOf({ sha256: 'e'.repeat(64), warnings: [unknown] }) })
    expect(workspace.testDay(sessionId)).toMatchObject({ next: 1 })
  })

  it('leaves a turn out when it is told to, and takes it in again', () => {
    const { workspace, sessionId } = planned()
    expect(workspace.leaveTurnOut(sessionId, 0, true)).toMatchObject({ next: 1 })
    expect(workspace.leaveTurnOut(sessionId, 0, false)).toMatchObject({ next: 0 })
  })

  it('is none where none was planned; turns that are not there are named', () => {
    const { workspace, sessionId } = planned()
    const other = workspace.createSession(session).id
    expect(workspace.testDay(other)).toBeNull()
    const clipId = add(workspace, sessionId)
    expect(thrownBy(() => workspace.placeClip(clipId, 8))).toMatchObject({ facts: { what: 'turn' } })
    // A refused step leaves the clip where it was.
    expect(workspace.testDay(sessionId)!.turns[0]!.clips).toHaveLength(1)
    expect(thrownBy(() => workspace.leaveTurnOut(other, 0, true))).toMatchObject({ facts: { what: 'turn' } })
  })

  it('goes with its session and lets go of a clip that is removed', () => {
    const { workspace, sessionId } = planned()
    workspace.removeClip(add(workspace, sessionId))
    expect(workspace.testDay(sessionId)!.turns[0]!.clips).toEqual([])
    add(workspace, sessionId)
    workspace.removeSession(sessionId)
    expect(workspace.testDay(sessionId)).toBeNull()
  })
})
