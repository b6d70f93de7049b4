import type { Progress } from '../../core/contract/calls.ts'
import { problemOf, WhorlError } from '../../core/contract/problem.ts'
import type { QueueState } from '../../core/contract/queue.ts'
import type { Workspace } from '../store/workspace.ts'
import type { Bus } from './bus.ts'
import type { Prober } from './prober.ts'
import type { SurfaceReader } from './surface-reader.ts'

/** Clips that are read one after the other, whatever happens to one of them, and on after a restart. */
export type ReadQueue = {
  put(clipIds: readonly string[]): void
  cancel(sessionId: string): void
  state(sessionId: string): QueueState
  /** Goes on with what an end of the program broke off. */
  goOn(): void
  close(): Promise<void>
}

type Needs = { workspace: Workspace; surface: SurfaceReader; prober: Prober; bus: Bus }
type Running = { stop: AbortController; progress: Progress | null; done: Promise<void> }

/** While the flights of one clip are read, the next is decoded. */
const atOnce = 2
const sayEveryMilliseconds = 250

export function createReadQueue({ workspace, surface, prober, bus }: Needs): ReadQueue {
  const running = new Map<string, Running>()
  let closed = false
  const changed = (sessionId: string) => bus.say({ kind: 'changed', what: 'queue', id: sessionId })

  async function readOne(clipId: string, { signal }: AbortController): Promise<void> {
    const { sessionId } = workspace.clip(clipId)
    let last = 0
    const progress = (said: Progress) => {
      const now = performance.now()
      const own = running.get(clipId)
      const isOther = own?.progress?.what !== said.what
      if (own) own.progress = said
      // What is done now is said at once: the next step of it may be long in coming.
      if (!isOther && now - last < sayEveryMilliseconds) return
      last = now
      changed(sessionId)
    }
    try {
      const clip = workspace.clip(clipId)
      const { probe, problem, id } = clip.probe ? clip : await prober.complete(clipId, { signal, progress })
      if (problem) throw problem
      if (!probe) throw new WhorlError('file-unreadable', { path: clip.path, what: 'it was not looked at' })
      const { said } = await surface.readClip(id, { signal, progress })
      workspace.setQueued(clipId, 'done', said)
    } catch (thrown) {
      // Closing leaves it as it is: the next start goes on with it.
      if (!signal.aborted && !closed) workspace.setQueued(clipId, 'failed', wordsOf(thrown))
    }
    running.delete(clipId)
    if (closed) return
    changed(sessionId)
    goOn()
  }

  function goOn(): void {
    const waiting = workspace.queued().filter(one => isUnread(one.state) && !running.has(one.clipId))
    for (const { clipId, sessionId } of waiting.slice(0, Math.max(0, atOnce - running.size))) {
      const stop = new AbortController()
      workspace.setQueued(clipId, 'reading', '')
      const own: Running = { stop, progress: null, done: Promise.resolve() }
      running.set(clipId, own)
      own.done = readOne(clipId, stop).catch(() => {})
      changed(sessionId)
    }
  }

  return {
    put(clipIds) {
      workspace.putInQueue(clipIds)
      goOn()
    },
    cancel(sessionId) {
      const own = workspace.queued().filter(one => one.sessionId === sessionId)
      workspace.takeFromQueue(sessionId, 'here')
      for (const { clipId } of own) running.get(clipId)?.stop.abort()
      changed(sessionId)
    },
    state: sessionId => ({
      entries: workspace
        .queued()
        .filter(one => one.sessionId === sessionId)
        .map(({ clipId, state, said }) => {
          const own = running.get(clipId)
          return {
            clipId,
            state: state === 'reading' && !own ? 'waiting' : state,
            said,
            progress: own?.progress ?? null,
          }
        }),
    }),
    goOn,
    async close() {
      closed = true
      for (const { stop } of running.values()) stop.abort()
      await Promise.all([...running.values()].map(({ done }) => done))
    },
  }
}

const isUnread = (state: string) => state === 'waiting' || state === 'reading'

/** What went wrong, as one line of a list. */
export function wordsOf(thrown: unknown): string {
  const { message, hint } = isProblem(thrown) ? thrown : problemOf(thrown)
  return `${message} ${hint}`
}

const isProblem = (thrown: unknown): thrown is { message: string; hint: string } =>
  typeof thrown === 'object' && thrown !== null && 'schema' in thrown && 'hint' in thrown
