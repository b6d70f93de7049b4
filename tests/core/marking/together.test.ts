import { expect, test } from 'vitest'
import type { Edit } from '../../../core/contract/bench.ts'
import { applyEdit } from '../../../core/marking/apply-edit.ts'
import { newHitMarks } from '../../../core/marking/new-hit-marks.ts'

const before = newHitMarks({ fromFrame: 0, toFrame: 20 })
const outline = (frame: number, xPx: number) => ({ frame, xPx, yPx: 50, radiusPx: 20 })
const steps: Edit = {
  kind: 'together',
  edits: [
    { kind: 'place-outline', outline: outline(3, 10) },
    { kind: 'place-outline', outline: outline(3, 12) },
    { kind: 'set-window', window: { fromFrame: 2, toFrame: 9 } },
    { kind: 'read-from', source: 'surface' },
  ],
}

test('edits taken together stand as one after the other, and go back as one', () => {
  const { hit, inverse } = applyEdit(before, steps)
  expect(hit).toMatchObject({
    window: { fromFrame: 2, toFrame: 9 },
    outlines: [outline(3, 12)],
    readFrom: 'surface',
  })
  const back = inverse.reduce((marks, edit) => applyEdit(marks, edit).hit, hit)
  expect(back).toEqual({ ...before, readFrom: 'marks' })
})

test('one that makes no sense refuses them all', () => {
  const bad: Edit = { kind: 'together', edits: [{ kind: 'remove-outline', frame: 3 }] }
  expect(() => applyEdit(before, bad)).toThrow('no placed outline')
})
