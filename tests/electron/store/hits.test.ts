import fc from 'fast-check'
import { describe, expect, it } from 'vitest'
import type { HitPage } from '../../../core/contract/calls.ts'
import { benchHitSchema, hitRowSchema } from '../../../core/contract/workspace.ts'
import { applyEdit } from '../../../core/marking/apply-edit.ts'
import { newHitMarks } from '../../../core/marking/new-hit-marks.ts'
import { anyEdit, tryEdit } from '../../core/marking/random-edits.ts'
import { sampleReading } from './sample-reading.ts'
import { temporaryWorkspace, thrownBy, withOneHit } from './temporary.ts'

const outline = (frame: number) => ({
  kind: 'place-outline' as const,
  outline: { frame, xPx: 100 + frame, yPx: 60, radiusPx: 20 },
})

describe('a hit', () => {
  it('begins with the one mark "logo", open, without a reading', () => {
    const { workspace } = temporaryWorkspace()
    const { hitId, clipId, sessionId } = withOneHit(workspace)
    const hit = workspace.hit(hitId)
    expect(benchHitSchema.parse(hit)).toEqual(hit)
    expect(hit.marks).toEqual(newHitMarks({ fromFrame: 0, toFrame: 20 }))
    expect(hit).toMatchObject({ canUndo: false, canRedo: false })
    expect(hit.row).toMatchObject({
      clipId,
      sessionId,
      clipName: 'drive 01.mp4',
      reading: null,
      stale: false,
    })
  })

  it('is given to a paddle’s set-up, and taken from it', () => {
    const { workspace } = temporaryWorkspace()
    const { hitId } = withOneHit(workspace)
    const { setUps } = workspace.createPaddle({ name: 'Heron 14', notes: '' })
    const row = workspace.assignHit(hitId, setUps[0]!.id)
    expect(row).toMatchObject({ setUpId: setUps[0]!.id, paddle: 'Heron 14', setUp: 'stock' })
    expect(hitRowSchema.parse(row)).toEqual(row)
    expect(workspace.assignHit(hitId, null)).toMatchObject({ setUpId: null, paddle: null, setUp: null })
    expect(thrownBy(() => workspace.assignHit(hitId, 'none'))).toMatchObject({ facts: { what: 'set-up' } })
  })

  it('keeps its note', () => {
    const { workspace, reopen } = temporaryWorkspace()
    const { hitId } = withOneHit(workspace)
    workspace.noteHit(hitId, 'seam, not logo')
    expect(reopen().hit(hitId).row.notes).toBe('seam, not logo')
  })

  it('list is by session day, clip and window, and is narrowed to a session or a clip', () => {
    const { workspace } = temporaryWorkspace()
    const one = withOneHit(workspace)
    const early = workspace.createHit(one.clipId, { fromFrame: 30, toFrame: 40 }).row.hitId
    const two = withOneHit(workspace)
    expect(workspace.hits({ sessionId: one.sessionId }).map(row => row.hitId)).toEqual([one.hitId, early])
    expect(workspace.hits({ clipId: two.clipId }).map(row => row.hitId)).toEqual([two.hitId])
    expect(workspace.hits({ clipId: two.clipId, sessionId: one.sessionId })).toEqual([])
    expect(workspace.hits({})).toHaveLength(3)
  })

  it('list comes in pages of whole sessions, together the whole list', () => {
    const { workspace } = temporaryWorkspace()
    for (let n = 0; n < 4; n++) {
      const { clipId } = withOneHit(workspace)
      workspace.createHit(clipId, { fromFrame: 30, toFrame: 40 })
    }
    const pages: string[][] = []
    for (let after: string | null = null; ; ) {
      const { hits, next }: HitPage = workspace.hitPage(after, 3)
      pages.push(hits.map(row => row.hitId))
      if (next === null) break
      after = next
    }
    expect(pages.map(page => page.length)).toEqual([4, 4])
    expect(pages.flat()).toEqual(workspace.hits({}).map(row => row.hitId))
    expect(workspace.hitPage(null, 100)).toEqual({ hits: workspace.hits({}), next: null })
    expect(thrownBy(() => workspace.hitPage('none', 3))).toMatchObject({ facts: { what: 'session' } })
  })

  it('that is not there is named', () => {
    const { workspace } = temporaryWorkspace()
    for (const look of [
      () => workspace.hit('none'),
      () => workspace.assignHit('none', null),
      () => workspace.noteHit('none', ''),
      () => workspace.removeHit('none'),
      () => workspace.saveEdit('none', outline(1)),
      () => workspace.undo('none'),
      () => workspace.redo('none'),
      () => workspace.saveReading('none', sampleReading(), '1'),
    ])
      expect(thrownBy(look)).toMatchObject({ code: 'not-in-workspace', facts: { what: 'hit', id: 'none' } })
  })
})

describe('the steps on a hit', () => {
  it('leave in the file what the same edits leave in the hand, all the way forth, back and forth', () => {
    const { workspace, reopen } = temporaryWorkspace()
    fc.assert(
      fc.property(fc.array(anyEdit, { minLength: 1, maxLength: 25 }), edits => {
        const { hitId } = withOneHit(workspace)
        const states = [workspace.hit(hitId).marks]
        for (const edit of edits) {
          const done = tryEdit(states.at(-1)!, edit)
          if (!done) expect(() => workspace.saveEdit(hitId, edit)).toThrow()
          else {
            states.push(done.hit)
            expect(workspace.saveEdit(hitId, edit).marks).toEqual(done.hit)
          }
        }
        expect(workspace.hit(hitId)).toMatchObject({ canUndo: states.length > 1, canRedo: false })
        for (const state of states.slice(0, -1).reverse()) expect(workspace.undo(hitId).marks).toEqual(state)
        expect(workspace.hit(hitId)).toMatchObject({ canUndo: false, canRedo: states.length > 1 })
        for (const state of states.slice(1)) expect(workspace.redo(hitId).marks).toEqual(state)
      }),
      { numRuns: 12 },
    )
    expect(reopen().isEmpty()).toBe(false)
  })

  it('can be undone and redone after a restart', () => {
    const { workspace, reopen } = temporaryWorkspace()
    const { hitId } = withOneHit(workspace)
    workspace.saveEdit(hitId, outline(3))
    workspace.saveEdit(hitId, outline(7))
    expect(reopen().undo(hitId).marks.outlines).toEqual([outline(3).outline])
    const back = reopen().redo(hitId)
    expect(back.marks.outlines).toEqual([outline(3).outline, outline(7).outline])
    expect(back).toMatchObject({ canUndo: true, canRedo: false })
  })

  it('that were undone are gone for good with the next edit', () => {
    const { workspace } = temporaryWorkspace()
    const { hitId } = withOneHit(workspace)
    for (const frame of [1, 2, 3]) workspace.saveEdit(hitId, outline(frame))
    workspace.undo(hitId)
    workspace.undo(hitId)
    expect(workspace.saveEdit(hitId, outline(9)).canRedo).toBe(false)
    expect(workspace.redo(hitId).marks.outlines.map(placed => placed.frame)).toEqual([1, 9])
    expect(workspace.undo(hitId).marks.outlines.map(placed => placed.frame)).toEqual([1])
  })

  it('at either end leave the hit as it is', () => {
    const { workspace } = temporaryWorkspace()
    const { hitId } = withOneHit(workspace)
    const before = workspace.hit(hitId)
    expect(workspace.undo(hitId)).toEqual(before)
    expect(workspace.redo(hitId)).toEqual(before)
  })

  it('of one hit leave another alone', () => {
    const { workspace } = temporaryWorkspace()
    const [one, two] = [withOneHit(workspace), withOneHit(workspace)]
    workspace.saveEdit(one.hitId, outline(3))
    workspace.saveEdit(two.hitId, outline(4))
    workspace.undo(one.hitId)
    expect(workspace.hit(two.hitId).marks.outlines).toEqual([outline(4).outline])
  })

  it('that are refused leave no trace', () => {
    const { workspace } = temporaryWorkspace()
    const { hitId } = withOneHit(workspace)
    const before = workspace.hit(hitId)
    const refused = thrownBy(() => workspace.saveEdit(hitId, { kind: 'remove-mark', mark: 'logo' }))
    expect(refused).toMatchObject({ code: 'edit-refused' })
    expect(workspace.hit(hitId)).toEqual(before)
  })

  it('keep the exact numbers of a click', () => {
    const { workspace, reopen } = temporaryWorkspace()
    const { hitId } = withOneHit(workspace)
    const sighting = { kind: 'point' as const, frame: 3, mark: 'logo', xPx: 1 / 3, yPx: Math.PI * 1e3 }
    const edit = { kind: 'place-sighting' as const, sighting }
    const expected = applyEdit(workspace.hit(hitId).marks, edit).hit
    workspace.saveEdit(hitId, edit)
    expect(reopen().hit(hitId).marks).toEqual(expected)
  })
})
