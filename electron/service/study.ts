import { randomInt } from 'node:crypto'
import type { HitMarks } from '../../core/contract/bench.ts'
import type { Service } from '../../core/contract/calls.ts'
import { WhorlError } from '../../core/contract/problem.ts'
import type { Study, StudyHead, StudyRemark } from '../../core/contract/study.ts'
import { captureFpsOf } from '../../core/marking/capture-fps-of.ts'
import { outlineAt } from '../../core/marking/outline-at.ts'
import { chooseItems, planStudy } from '../../core/marking/study-plan.ts'
import { studyReport } from '../../core/marking/study-report.ts'
import { frameTimes } from '../../core/timing/frame-times.ts'
import type { PlannedTask, StoredStudy, Workspace } from '../store/workspace.ts'
import type { Parts } from './parts.ts'

type Calls = `study.${'list' | 'begin' | 'open' | 'mark' | 'takeBack' | 'remove' | 'report'}`

/** Marking the same hits again, blind. Where a mark stands on the bench never leaves the host before the end. */
export const studyCalls = ({ workspace, bus }: Parts): Pick<Service, Calls> => {
  const changed = <T>(sessionId: string, answer: T): T => {
    bus.say({ kind: 'changed', what: 'studies', id: sessionId })
    return answer
  }
  return {
    'study.list': async ({ sessionId }) => {
      workspace.session(sessionId)
      const byHit = markable(workspace, sessionId)
      return {
        markable: byHit.flat().length,
        hits: byHit.length,
        studies: workspace.studies(sessionId).map(headOf),
      }
    },
    'study.begin': async ({ sessionId, person, items }) => {
      workspace.session(sessionId)
      const chosen = chooseItems(markable(workspace, sessionId), items)
      if (chosen.length === 0)
        throw new WhorlError('edit-refused', {
          what: 'This session has no marks yet that could be marked again.',
          hint: 'Measure a hit on the bench first.',
        })
      const tasks = planStudy(chosen, () => randomInt(2 ** 47) / 2 ** 47)
      const known = workspace.studies(sessionId).find(each => alike(each.person) === alike(person))
      const name = known?.person ?? person
      return changed(sessionId, shownOf(workspace.createStudy({ sessionId, person: name, tasks })))
    },
    'study.open': async ({ studyId }) => shownOf(workspace.study(studyId)),
    'study.mark': async ({ studyId, place, seen }) => {
      const study = workspace.saveRemark(studyId, place, seen)
      return changed(study.sessionId, { done: study.seen.length })
    },
    'study.takeBack': async ({ studyId }) => {
      const study = workspace.takeBackRemark(studyId)
      return changed(study.sessionId, { done: study.seen.length })
    },
    'study.remove': async ({ studyId }) => {
      const { sessionId } = workspace.study(studyId)
      workspace.removeStudy(studyId)
      return changed(sessionId, null)
    },
    'study.report': async ({ sessionId }) => {
      workspace.session(sessionId)
      const studies = workspace.studies(sessionId)
      const onBench = studies.flatMap(study => study.tasks).map(task => remarkOf(task, task.onBench))
      return studyReport(studies.flatMap(remarksOf), oncePerItem(onBench))
    },
  }
}

/** One person is one person however the name is written today. */
const alike = (name: string) => name.trim().toLowerCase()

const headOf = ({ id, sessionId, person, tasks, seen }: StoredStudy): StudyHead => ({
  id,
  sessionId,
  person,
  tasks: tasks.length,
  done: seen.length,
})

/** Without what the bench says: the page cannot show, nor a person find, what it does not have. */
const shownOf = (study: StoredStudy): Study => ({
  ...headOf(study),
  tasks: study.tasks.map(({ onBench: _, ...task }) => task),
})

/** The marks of a session that can be shown again, a list a hit: seen, and the ball's place known. */
function markable(workspace: Workspace, sessionId: string): PlannedTask[][] {
  const { camera } = workspace.session(sessionId)
  return workspace
    .hits({ sessionId })
    .map(({ hitId, clipId }) => {
      const { probe } = workspace.clip(clipId)
      if (probe === null) return []
      const times = frameTimes({
        timestampsSeconds: workspace.timestampsSeconds(clipId),
        playbackFps: probe.playbackFps,
        captureFps: captureFpsOf(probe, camera),
        trusted: true,
      })
      return tasksOf(workspace.hit(hitId).marks, { hitId, clipId }, times)
    })
    .filter(tasks => tasks.length > 0)
}

function tasksOf(marks: HitMarks, whose: { hitId: string; clipId: string }, times: readonly number[]) {
  const { fromFrame, toFrame } = marks.window
  return marks.sightings.flatMap(({ frame, mark: markId, ...placed }): PlannedTask[] => {
    const mark = marks.marks.find(({ id }) => id === markId)
    const outline = outlineAt(marks, frame, times)
    if (!mark || !outline || placed.kind === 'hidden' || frame < fromFrame || frame > toFrame) return []
    return [{ ...whose, frame, mark, outline, onBench: placed }]
  })
}

const remarksOf = ({ person, tasks, seen }: StoredStudy): StudyRemark[] =>
  seen.map((each, place) => ({ ...remarkOf(tasks[place]!, each), person }))

const remarkOf = ({ hitId, frame, mark, outline }: PlannedTask, seen: PlannedTask['onBench']) => ({
  hit: hitId,
  frame,
  mark: mark.id,
  symmetryOrder: mark.symmetryOrder,
  outline,
  seen,
})

/** Each task stands twice in a study and may stand in several: on the bench it was marked once. */
const oncePerItem = <T extends { hit: string; frame: number; mark: string }>(remarks: T[]): T[] => [
  ...new Map(remarks.map(remark => [`${remark.hit} ${remark.frame} ${remark.mark}`, remark])).values(),
]
