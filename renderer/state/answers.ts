import { useCallback, useEffect, useMemo, useRef, useState } from 'react'
import type {
  CallAnswer,
  CallInput,
  CallName,
  CallOptions,
  HostEvent,
  Progress,
} from '../../core/contract/calls.ts'
import type { Problem } from '../../core/contract/problem.ts'
import { problemShown, useHost } from '../host/host.ts'

type Changed = Extract<HostEvent, { kind: 'changed' }>['what']
export type Answer<T> = {
  value: T | null
  problem: Problem | null
  /** How far the first answer is, where the host tells it. */
  progress: Progress | null
  again: () => void
}

/** Asks for something; `show` lets what there is of it so far be seen, `tell` how far it is. */
export type Asking<T> = (
  signal: AbortSignal,
  show: (soFar: T) => void,
  tell: (progress: Progress) => void,
) => Promise<T>

/** What the host answers to a call. A null input asks nothing. */
export function useAnswer<N extends CallName>(
  name: N,
  input: CallInput<N> | null,
  on: Changed[],
): Answer<CallAnswer<N>> {
  const host = useHost()
  const asked = JSON.stringify(input)
  const asking = useMemo<Asking<CallAnswer<N>> | null>(
    () =>
      asked === 'null'
        ? null
        : (signal, _, onProgress) =>
            host.call(name, JSON.parse(asked) as CallInput<N>, { signal, onProgress }),
    [host, name, asked],
  )
  return useAsked(asking, on)
}

/**
 * What is answered to `asking`, asked again whenever the host says that one of `on` changed. The last good
 * value stays while a new one is on its way. A change of `asking` itself asks anew: it is to be the same
 * function from one drawing to the next.
 */
export function useAsked<T>(asking: Asking<T> | null, on: Changed[]): Answer<T> & { isWhole: boolean } {
  const host = useHost()
  const [state, setState] = useState<Omit<Answer<T>, 'again'> & { isWhole: boolean }>(unanswered)
  const ask = useRef<() => void>(() => {})
  const again = useCallback(() => ask.current(), [])
  const watched = on.join(' ')

  useEffect(() => {
    if (asking === null) return
    const abort = new AbortController()
    const { signal } = abort
    let waiting = 0
    let isAsking = false
    let wasAnswered = false
    let changedMeanwhile = false

    const show = (soFar: T) => {
      if (!signal.aborted && !wasAnswered) setState({ ...unanswered, value: soFar })
    }
    const tell = (progress: Progress) => {
      if (!signal.aborted && !wasAnswered) setState(last => ({ ...last, progress }))
    }
    const askOnce = async () => {
      // A question under way is let finish, or a long run of changes would never show.
      changedMeanwhile = isAsking
      if (isAsking) return
      isAsking = true
      try {
        const value = await asking(signal, show, tell)
        wasAnswered = true
        if (!signal.aborted) setState({ ...unanswered, value, isWhole: true })
      } catch (thrown) {
        if (!signal.aborted) setState(last => ({ ...last, progress: null, problem: problemShown(thrown) }))
      }
      isAsking = false
      if (changedMeanwhile && !signal.aborted) askOnce()
    }
    ask.current = askOnce
    const stop = host.on(event => {
      if (event.kind !== 'changed' || !watched.split(' ').includes(event.what)) return
      // Many changes in one breath are one reason to ask again.
      clearTimeout(waiting)
      waiting = window.setTimeout(askOnce, 30)
    })
    askOnce()
    return () => {
      abort.abort()
      clearTimeout(waiting)
      stop()
    }
  }, [host, asking, watched])

  return { ...state, again }
}

const unanswered = { value: null, problem: null, progress: null, isWhole: false }

export type Act = {
  busy: boolean
  progress: Progress | null
  problem: Problem | null
  cancel: () => void
  forget: () => void
  /** Does one thing; true when it was done. A newer one waits for no older: they are not run twice at once. */
  run: (work: (options: CallOptions) => Promise<unknown>) => Promise<boolean>
}

/** One thing being done for the person: whether it is under way, how far, and what went wrong. */
export function useAct(): Act {
  const [state, setState] = useState<Pick<Act, 'busy' | 'progress' | 'problem'>>(idle)
  const abort = useRef<AbortController | null>(null)
  const run = useCallback<Act['run']>(async work => {
    if (abort.current) return false
    const own = new AbortController()
    abort.current = own
    setState({ ...idle, busy: true })
    try {
      await work({
        signal: own.signal,
        onProgress: progress => setState(last => (last.busy ? { ...last, progress } : last)),
      })
      setState(idle)
      return true
    } catch (thrown) {
      const problem = problemShown(thrown)
      setState({ ...idle, problem: own.signal.aborted || problem.code === 'cancelled' ? null : problem })
      return false
    } finally {
      abort.current = null
    }
  }, [])
  const cancel = useCallback(() => abort.current?.abort(), [])
  const forget = useCallback(() => setState(idle), [])
  return { ...state, run, cancel, forget }
}

const idle = { busy: false, progress: null, problem: null }
