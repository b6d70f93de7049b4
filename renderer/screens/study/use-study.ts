import { useCallback, useEffect, useMemo, useRef, useState } from 'react'
import type { StepCall } from '../../../core/contract/calls.ts'
import type { Problem } from '../../../core/contract/problem.ts'
import type { Study, StudySeen } from '../../../core/contract/study.ts'
import { problemShown, useHost } from '../../host/host.ts'
import { SaveQueue } from '../../state/save-queue.ts'

/**
 * A study under way. The page goes on at once; clicks are saved one after the other behind it. When one
 * cannot be saved, the study is shown as the host has it.
 */
export function useStudy(studyId: string) {
  const host = useHost()
  const [study, setStudy] = useState<Study | null>(null)
  const [problem, setProblem] = useState<Problem | null>(null)
  const current = useRef<Study | null>(null)

  const show = useCallback((next: Study) => {
    current.current = next
    setStudy(next)
  }, [])
  const open = useCallback(async () => {
    try {
      show(await host.call('study.open', { studyId }))
    } catch (thrown) {
      setProblem(problemShown(thrown))
    }
  }, [host, studyId, show])
  useEffect(() => {
    open()
  }, [open])

  const queue = useMemo(
    () =>
      new SaveQueue<Omit<StepCall, 'callId'>, { done: number }>(host, step => step, {
        saved: () => {},
        failed: thrown => open().then(() => setProblem(problemShown(thrown))),
      }),
    [host, open],
  )
  const save = (done: number, step: Omit<StepCall, 'callId'>) => {
    if (!current.current) return
    setProblem(null)
    show({ ...current.current, done })
    queue.push(step)
  }
  const mark = (seen: StudySeen) => {
    const place = current.current?.done ?? 0
    save(place + 1, { name: 'study.mark', input: { studyId, place, seen } })
  }
  const takeBack = () => {
    const done = current.current?.done ?? 0
    if (done > 0) save(done - 1, { name: 'study.takeBack', input: { studyId } })
  }
  /** Resolves once every click is on the host's disk. */
  const saved = useCallback(() => queue.written(), [queue])
  return { study, problem, mark, takeBack, saved }
}
