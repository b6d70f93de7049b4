import { describe, expect, it } from 'vitest'
import type { Marks } from '../../../core/contract/marks.ts'
import { strangersIn, studyRemarksOf } from '../../../core/marking/study-of-marks.ts'

const outline = (xPx: number) => ({ xPx, yPx: 270, radiusPx: 36 })
const marksOf = (frames: Marks['frames'], marks = [{ id: 'logo', symmetryOrder: 1 }]): Marks => ({
  schema: 'whorl.marks/1',
  capture: { fps: 240 },
  picture: { widthPx: 960, heightPx: 540 },
  ball: { diameterMetres: 0.074 },
  marks,
  frames,
})
const point = (mark: string, xPx: number) => ({ mark, xPx, yPx: 250 })

/** Two people's files of one hit: Ada has a point and a hidden mark, Ben a direction, and circles of his own. */
const ada = marksOf([
  { index: 4, outline: outline(480), seen: [point('logo', 490)] },
  { index: 5, seen: [], hidden: ['logo'] },
])
const ben = marksOf(
  [
    { index: 4, outline: outline(484), seen: [point('logo', 491)] },
    { index: 5, outline: outline(500), seen: [{ mark: 'line', bearingDeg: 33 }] },
    { index: 6, seen: [point('unlisted', 510)] },
  ],
  [
    { id: 'logo', symmetryOrder: 1 },
    { id: 'line', symmetryOrder: 2 },
  ],
)

describe('a study made of files of marks', () => {
  const remarks = studyRemarksOf([
    { person: 'Ada', marks: ada },
    { person: 'Ben', marks: ben },
  ])
  it('holds what each person saw, a hidden mark as one that was looked for and not found', () => {
    expect(remarks.map(({ person, frame, mark, seen }) => [person, frame, mark, seen.kind])).toEqual([
      ['Ada', 4, 'logo', 'point'],
      ['Ada', 5, 'logo', 'unseen'],
      ['Ben', 4, 'logo', 'point'],
      ['Ben', 5, 'line', 'direction'],
      ['Ben', 6, 'unlisted', 'point'],
    ])
    expect(remarks[0]!.seen).toEqual({ kind: 'point', xPx: 490, yPx: 250 })
    expect(remarks[3]!.seen).toEqual({ kind: 'direction', bearingDeg: 33 })
  })
  it('has one circle a frame for all, the first file’s that has one', () => {
    expect(remarks.map(remark => remark.outline?.xPx ?? null)).toEqual([480, 500, 480, 500, null])
  })
  it('knows how often a mark looks the same, once where nobody says', () => {
    expect(remarks.map(remark => remark.symmetryOrder)).toEqual([1, 1, 1, 2, 1])
  })
})

describe('files that hold what no other does', () => {
  it('are named by their place, with how many sightings stand alone', () => {
    // Of Ben's three sightings only the logo in frame 4 is Ada's too; hidden marks are no sightings.
    expect(strangersIn([ada, ben])).toEqual([{ file: 1, alone: 2 }])
    expect(strangersIn([ben, ada, marksOf([{ index: 9, seen: [point('logo', 1)] }])])).toEqual([
      { file: 0, alone: 2 },
      { file: 2, alone: 1 },
    ])
  })
  it('are none where every sighting is in two', () => {
    expect(strangersIn([ada, ada])).toEqual([])
    expect(strangersIn([])).toEqual([])
  })
})
