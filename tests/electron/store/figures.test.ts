import { describe, expect, it } from 'vitest'
import { rated } from '../../../electron/service/rating-figures.ts'
import { openWorkspace } from '../../../electron/store/open-workspace.ts'
import type { RatedEvidence, Workspace } from '../../../electron/store/workspace.ts'
import { session } from '../../core/marking/sample-records.ts'
import { fillWorkspace, giveHits } from '../export/filled-workspace.ts'
import { sampleReading } from './sample-reading.ts'
import { temporaryWorkspace } from './temporary.ts'

const madeBy = '1/1'
/** Everything that a figure rests on. */
const seen = (hits: RatedEvidence[]) => JSON.stringify(hits.map(rated))
const outdated = (workspace: Workspace, by = madeBy) =>
  workspace.outdatedFigures(by).map(({ setUpId }) => setUpId)
const renew = (workspace: Workspace) => workspace.keepFigures(outdated(workspace), madeBy, seen)
const figureOf = (workspace: Workspace, setUpId: string) =>
  workspace.figures().find(one => one.setUpId === setUpId)?.figure

describe('a kept figure', () => {
  function filled() {
    const { workspace, file } = temporaryWorkspace()
    const made = fillWorkspace(workspace)
    renew(workspace)
    return { workspace, file, ...made }
  }
  it('is there for every set-up with hits, and for no other', () => {
    const { workspace, heron, avocet, merlin } = filled()
    workspace.createPaddle({ name: 'Kite', notes: '' })
    expect(
      workspace
        .figures()
        .map(one => one.setUpId)
        .sort(),
    ).toEqual([heron, avocet, merlin].sort())
    expect(outdated(workspace)).toEqual([])
    expect(outdated(workspace, 'another version')).toHaveLength(3)
  })

  const firstOf = (hits: readonly string[]) => hits[0]!
  it.each<[string, (workspace: Workspace, hits: string[]) => void]>([
    ['a verdict', (w, hits) => decide(w, firstOf(hits), 'held-back')],
    ['the reason of a verdict', (w, hits) => decide(w, firstOf(hits), 'accepted', 'heard')],
    ['a reading', (w, hits) => w.saveReading(firstOf(hits), sampleReading({ rpm: 1 }), '2')],
    ['marks', (w, hits) => w.saveEdit(firstOf(hits), { kind: 'set-sense', sense: 'clockwise' })],
    ['an undone step', (w, hits) => w.undo(firstOf(hits))],
    ['a removed hit', (w, hits) => w.removeHit(firstOf(hits))],
    ['a hit that is another’s now', (w, hits) => w.assignHit(firstOf(hits), null)],
    ['the camera', w => changeSession(w, { camera: { ...session.camera, name: 'another' } })],
    ['the camera’s rate', w => changeSession(w, { camera: { ...session.camera, captureFps: 120 } })],
    ['the day', w => changeSession(w, { day: '2025-01-01' })],
  ])('goes when %s changes under it, and is as from the hits when it is made again', (_, change) => {
    const { workspace, hitIds, heron } = filled()
    change(workspace, hitIds)
    expect(outdated(workspace)).toContain(heron)
    expect(figureOf(workspace, heron)).toBeUndefined()
    renew(workspace)
    expect(figureOf(workspace, heron)).toBe(seen(workspace.evidence({ setUpId: heron })))
  })
  it('goes from both set-ups when a hit is moved between them', () => {
    const { workspace, hitIds, heron, avocet } = filled()
    workspace.assignHit(hitIds[0]!, avocet)
    expect(outdated(workspace).sort()).toEqual([heron, avocet].sort())
  })
  it('goes when a session goes with its clips and hits', () => {
    const { workspace, heron } = filled()
    giveHits(workspace, [{ setUpId: heron, rpm: 2000 }], '2026-06-02')
    renew(workspace)
    const later = workspace.sessions().find(one => one.day === '2026-06-02')!
    workspace.removeSession(later.id)
    expect(outdated(workspace)).toEqual([heron])
  })
  it('stays when something else changes: a note, another paddle, the place', () => {
    const { workspace, hitIds } = filled()
    workspace.noteHit(hitIds[0]!, 'loud')
    workspace.createPaddle({ name: 'Kite', notes: '' })
    changeSession(workspace, { place: 'elsewhere' })
    expect(outdated(workspace)).toEqual([])
  })
  it('goes when another window changes a hit, which the mark of changes tells', () => {
    const { workspace, file, hitIds, heron } = filled()
    const mark = workspace.changeMark()
    expect(workspace.changeMark()).toBe(mark)
    const other = openWorkspace(file, { now: () => new Date() })
    decide(other, hitIds[0]!, 'held-back')
    other.close()
    expect(workspace.changeMark()).not.toBe(mark)
    expect(outdated(workspace)).toEqual([heron])
  })
})

it('a setting is kept over a restart', () => {
  const { workspace, reopen } = temporaryWorkspace()
  expect(workspace.setting('ratings')).toBeNull()
  workspace.keepSetting('ratings', '1')
  workspace.keepSetting('ratings', '2')
  expect(reopen().setting('ratings')).toBe('2')
})

function decide(workspace: Workspace, hitId: string, state: 'accepted' | 'held-back', reason = ''): void {
  workspace.saveEdit(hitId, { kind: 'decide', verdict: { state, reason } })
}

function changeSession(workspace: Workspace, changes: Partial<typeof session>): void {
  workspace.updateSession(workspace.sessions()[0]!.id, { ...session, ...changes })
}
