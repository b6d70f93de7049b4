import fc from 'fast-check'
import { describe, expect, it } from 'vitest'
import { type Edit, hitMarksSchema } from '../../../core/contract/bench.ts'
import { applyEdit } from '../../../core/marking/apply-edit.ts'
import { newHitMarks } from '../../../core/marking/new-hit-marks.ts'
import { anyEdit, tryEdit, workedHit } from './random-edits.ts'

const fresh = newHitMarks({ fromFrame: 10, toFrame: 30 })
const worked = (...edits: Edit[]) => edits.reduce((hit, edit) => applyEdit(hit, edit).hit, fresh)
const point = (frame: number, mark = 'logo'): Edit => ({
  kind: 'place-sighting',
  sighting: { kind: 'point', frame, mark, xPx: 100 + frame, yPx: 50 },
})
const dot: Edit = { kind: 'put-mark', mark: { id: 'dot', kind: 'point', symmetryOrder: 1 } }

describe('an edit', () => {
  it('and then its inverse leave the very same hit, whatever the edit and the work before it', () => {
    let applied = 0
    fc.assert(
      fc.property(workedHit, anyEdit, (hit, edit) => {
        const before = structuredClone(hit)
        const done = tryEdit(hit, edit)
        expect(hit).toEqual(before)
        if (!done) return
        applied++
        const back = done.inverse.reduce((now, step) => applyEdit(now, step).hit, done.hit)
        expect(back).toEqual(hit)
      }),
      { numRuns: 2000 },
    )
    expect(applied).toBeGreaterThan(800)
  })

  it('leaves a hit that the contract accepts', () => {
    fc.assert(
      fc.property(workedHit, hit => {
        expect(hitMarksSchema.parse(hit)).toEqual(hit)
      }),
    )
  })

  it('of a place that is taken replaces it and brings the old one back', () => {
    const moved: Edit = { kind: 'place-outline', outline: { frame: 12, xPx: 9, yPx: 9, radiusPx: 9 } }
    const first: Edit = { kind: 'place-outline', outline: { frame: 12, xPx: 1, yPx: 1, radiusPx: 5 } }
    const { hit, inverse } = applyEdit(worked(first), moved)
    expect(hit.outlines).toEqual([moved.outline])
    expect(inverse).toEqual([first])
  })

  it('that removes a mark takes its sightings along and its inverse brings all of them back', () => {
    const hit = worked(dot, point(11), point(12, 'dot'), point(13, 'dot'))
    const removed = applyEdit(hit, { kind: 'remove-mark', mark: 'dot' })
    expect(removed.hit.sightings.map(seen => seen.mark)).toEqual(['logo'])
    expect(removed.inverse).toHaveLength(3)
    expect(removed.inverse.reduce((now, step) => applyEdit(now, step).hit, removed.hit)).toEqual(hit)
  })

  it('of the window keeps what lies outside it', () => {
    const hit = worked(point(11), { kind: 'set-window', window: { fromFrame: 20, toFrame: 25 } })
    expect(hit.sightings).toHaveLength(1)
  })
})

describe('an edit is refused with a way out', () => {
  const placed = (sighting: object): Edit => ({ kind: 'place-sighting', sighting }) as Edit
  const circle = (outline: object): Edit => ({ kind: 'place-outline', outline }) as Edit
  const mark = (fields: object): Edit => ({
    kind: 'put-mark',
    mark: { id: 'x', kind: 'point', symmetryOrder: 1, ...fields },
  })
  it.each<[string, Edit]>([
    ['a sighting of an unknown mark', point(11, 'seam')],
    ['a direction of a point mark', placed({ kind: 'direction', frame: 1, mark: 'logo', bearingDeg: 5 })],
    ['a sighting at NaN', placed({ kind: 'point', frame: 1, mark: 'logo', xPx: Number.NaN, yPx: 0 })],
    ['a sighting in half a frame', placed({ kind: 'point', frame: 1.5, mark: 'logo', xPx: 1, yPx: 0 })],
    ['a hidden unknown mark', placed({ kind: 'hidden', frame: 1, mark: 'seam' })],
    ['an outline at infinity', circle({ frame: 1, xPx: Number.POSITIVE_INFINITY, yPx: 1, radiusPx: 1 })],
    ['an outline without a size', circle({ frame: 1, xPx: 1, yPx: 1, radiusPx: 0 })],
    ['an outline before the first frame', circle({ frame: -1, xPx: 1, yPx: 1, radiusPx: 1 })],
    ['a removal of no outline', { kind: 'remove-outline', frame: 3 }],
    ['a removal of no sighting', { kind: 'remove-sighting', frame: 3, mark: 'logo' }],
    ['a removal of no mark', { kind: 'remove-mark', mark: 'seam' }],
    ['a removal of the last mark', { kind: 'remove-mark', mark: 'logo' }],
    ['a second mark with the same name', mark({ id: ' Logo' })],
    ['a mark without a name', mark({ id: ' ' })],
    ['a mark that repeats nine times', mark({ symmetryOrder: 9 })],
    [
      'a rate that is no number',
      { kind: 'settle', settled: { rpm: Number.NaN, sense: 'clockwise', reason: 'a' } },
    ],
  ])('for %s', (_case, edit) => {
    expect(() => applyEdit(fresh, edit)).toThrow(
      expect.objectContaining({ code: 'edit-refused', hint: expect.stringMatching(/./) }),
    )
  })

  it('for a window that ends before it begins', () => {
    const edit: Edit = { kind: 'set-window', window: { fromFrame: 9, toFrame: 8 } }
    expect(() => applyEdit(fresh, edit)).toThrow(expect.objectContaining({ code: 'window-empty' }))
  })

  it('for another kind of mark under sightings, but not under hidden ones', () => {
    const turned = mark({ id: 'logo', kind: 'direction' })
    expect(() => applyEdit(worked(point(11)), turned)).toThrow(/as a point already/)
    const hidden = placed({ kind: 'hidden', frame: 11, mark: 'logo' })
    expect(applyEdit(worked(hidden), turned).hit.marks[0]?.kind).toBe('direction')
  })
})
