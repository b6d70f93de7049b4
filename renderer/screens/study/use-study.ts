import { useCallback, useEffect, useRef, useState } from 'react'
import type { Problem } from '../../../core/contract/problem.ts'
import type { Study, StudySeen } from '../../../core/contract/study.ts'
import { problemShown, useHost } from '../../host/host.ts'

/**
 * A study under way. The page goes on at once; clicks are saved one after the other behind it. When one
 * cannot be saved, the study is shown as the host has it.
 */
export function useStudy(studyId: string) {
  const host = useHost()
  const [study, setStudy] = useState<Study | null>(null)
  const [problem, setProblem] = useState<Problem | null>(null)
  const current = useRef<Study | null>(null)
  const saving = useRef(Promise.resolve())

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

  const save = (done: number, work: () => Promise<unknown>) => {
    if (!current.current) return
    setProblem(null)
    show({ ...current.current, done })
    saving.current = saving.current.then(work).then(
      () => {},
      async thrown => {
        await open()
        setProblem(problemShown(thrown))
      },
    )
  }
  const mark = (seen: StudySeen) => {
    const place = current.current?.done ?? 0
    save(place + 1, () => host.call('study.mark', { studyId, place, seen }))
  }
  const takeBack = () => {
    const done = current.current?.done ?? 0
    if (done > 0) save(done - 1, () => host.call('study.takeBack', { studyId }))
  }
  /** Resolves once every click is on the host's disk. */
  const saved = useCallback(() => saving.current, [])
  return { study, problem, mark, takeBack, saved }
}
