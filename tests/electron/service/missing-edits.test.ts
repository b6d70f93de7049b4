import { readFileSync } from 'node:fs'
import { join } from 'node:path'
import { expect, it } from 'vitest'
import type { HitMarks } from '../../../core/contract/bench.ts'
import { type Marks, marksSchema } from '../../../core/contract/marks.ts'
import { applyEdit } from '../../../core/marking/apply-edit.ts'
import { newHitMarks } from '../../../core/marking/new-hit-marks.ts'
import { missingEdits } from '../../../electron/service/missing-edits.ts'

const marks: Marks = {
  schema: 'whorl.marks/1',
  capture: { fps: 240 },
  picture: { widthPx: 100, heightPx: 100 },
  ball: { diameterMetres: 0.074 },
  marks: [
    { id: 'logo', symmetryOrder: 2 },
    { id: 'dot', symmetryOrder: 1 },
  ],
  frames: [
    { index: 3, outline: { xPx: 50, yPx: 50, radiusPx: 20 }, seen: [{ mark: 'dot', xPx: 55, yPx: 45 }] },
    { index: 4, seen: [{ mark: 'logo', bearingDeg: 30 }], hidden: ['dot'] },
  ],
}
const fresh = newHitMarks({ fromFrame: 3, toFrame: 4 })
const withAll = (hit: HitMarks, document: Marks) =>
  missingEdits(hit, document).reduce((before, edit) => applyEdit(before, edit).hit, hit)

it('brings marks, outlines and sightings of every kind into a new hit', () => {
  const hit = withAll(fresh, marks)
  expect(hit.marks).toEqual([
    { id: 'dot', kind: 'point', symmetryOrder: 1 },
    { id: 'logo', kind: 'direction', symmetryOrder: 2 },
  ])
  expect(hit.outlines).toEqual([{ frame: 3, xPx: 50, yPx: 50, radiusPx: 20 }])
  expect(hit.sightings).toEqual([
    { kind: 'point', frame: 3, mark: 'dot', xPx: 55, yPx: 45 },
    { kind: 'hidden', frame: 4, mark: 'dot' },
    { kind: 'direction', frame: 4, mark: 'logo', bearingDeg: 30 },
  ])
})

it('has nothing to bring the second time', () => {
  expect(missingEdits(withAll(fresh, marks), marks)).toEqual([])
})

it('goes on where it was broken off', () => {
  const half = missingEdits(fresh, marks)
    .slice(0, 4)
    .reduce((before, edit) => applyEdit(before, edit).hit, fresh)
  expect(withAll(half, marks)).toEqual(withAll(fresh, marks))
})

it('leaves what a person has placed as it is', () => {
  const placed = { kind: 'point' as const, frame: 3, mark: 'dot', xPx: 60, yPx: 40 }
  const { hit } = applyEdit(withAll(fresh, marks), { kind: 'place-sighting', sighting: placed })
  expect(missingEdits(hit, marks)).toEqual([])
})

it('brings the sample clips’ clicks in, each of them', () => {
  const path = join(import.meta.dirname, '../../../sample-clips/topspin-240-a.clicks.json')
  const clicks = marksSchema.parse(JSON.parse(readFileSync(path, 'utf8')))
  const hit = withAll(newHitMarks({ fromFrame: 0, toFrame: 39 }), clicks)
  const seen = clicks.frames.flatMap(frame => [...frame.seen, ...(frame.hidden ?? [])])
  expect(hit.sightings).toHaveLength(seen.length)
})
