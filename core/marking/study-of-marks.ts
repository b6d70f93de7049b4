import type { Marks } from '../contract/marks.ts'
import type { StudyRemark } from '../contract/study.ts'

/** Every file of a study is of one hit, so that frame and mark name alone say what was marked. */
const oneHit = ''

/**
 * The markings in files of `whorl.marks/1` that hold the same hit, each with the person it is of. The
 * outline that a bearing is about is the first file's that has one in that frame: else each person's own
 * circle would turn up as a difference in clicks.
 */
export function studyRemarksOf(files: readonly { person: string; marks: Marks }[]): StudyRemark[] {
  const frames = files.flatMap(({ marks }) => marks.frames)
  return files.flatMap(({ person, marks }) =>
    marks.frames.flatMap(({ index, seen, hidden = [] }) => {
      const outline = frames.find(frame => frame.index === index && frame.outline)?.outline ?? null
      const remark = (mark: string, what: StudyRemark['seen']): StudyRemark => ({
        hit: oneHit,
        frame: index,
        mark,
        person,
        outline,
        symmetryOrder: marks.marks.find(({ id }) => id === mark)?.symmetryOrder ?? 1,
        seen: what,
      })
      return [
        ...seen.map(sighting =>
          remark(
            sighting.mark,
            'bearingDeg' in sighting
              ? { kind: 'direction', bearingDeg: sighting.bearingDeg }
              : { kind: 'point', xPx: sighting.xPx, yPx: sighting.yPx },
          ),
        ),
        ...hidden.map(mark => remark(mark, { kind: 'unseen' })),
      ]
    }),
  )
}

/** How many sightings of each file no other file has: of another hit, or of frames that only one has marked. */
export function strangersIn(files: readonly Marks[]): { file: number; alone: number }[] {
  const keysOf = (marks: Marks) =>
    new Set(marks.frames.flatMap(({ index, seen }) => seen.map(({ mark }) => JSON.stringify([index, mark]))))
  const keys = files.map(keysOf)
  return keys
    .map((own, file) => ({
      file,
      alone: [...own].filter(key => !keys.some((other, i) => i !== file && other.has(key))).length,
    }))
    .filter(({ alone }) => alone > 0)
}
