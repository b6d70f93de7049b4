import { useCallback, useEffect, useState } from 'react'
import type { Host } from '../../../core/contract/calls.ts'
import { type Problem, WhorlError } from '../../../core/contract/problem.ts'
import { problemShown, useHost } from '../../host/host.ts'
import { type ClipFrames, framesOf } from './picture/use-frames.ts'
import { type BenchStore, benchStore } from './state/bench-store.ts'

export type OpenedHit = { store: BenchStore; frames: ClipFrames }

/** Opens a hit with its clip and session, has its window decoded, and closes all of it again. */
export function useOpenedHit(hitId: string): {
  opened: OpenedHit | null
  problem: Problem | null
  again: () => void
} {
  const host = useHost()
  const [opened, setOpened] = useState<OpenedHit | null>(null)
  const [problem, setProblem] = useState<Problem | null>(null)
  const [turn, setTurn] = useState(0)

  // biome-ignore lint/correctness/useExhaustiveDependencies: a turn opens the same hit again.
  useEffect(() => {
    const abort = new AbortController()
    let frames: ClipFrames | null = null
    let stop = () => {}
    setOpened(null)
    setProblem(null)
    open(host, hitId, abort.signal).then(
      store => {
        if (abort.signal.aborted) return
        const { clip } = store.getState()
        frames = framesOf(host, clip.id, clip.probe!)
        const stops = [followClip(host, store), followReading(host, store)]
        stop = () => {
          for (const each of stops) each()
        }
        setOpened({ store, frames })
      },
      thrown => !abort.signal.aborted && setProblem(problemShown(thrown)),
    )
    return () => {
      abort.abort()
      stop()
      frames?.close()
    }
  }, [host, hitId, turn])

  return { opened, problem, again: useCallback(() => setTurn(count => count + 1), []) }
}

async function open(host: Host, hitId: string, signal: AbortSignal): Promise<BenchStore> {
  const hit = await host.call('hits.open', { hitId }, { signal })
  const { clipId, sessionId } = hit.row
  const [{ clip, timestampsSeconds }, sessions] = await Promise.all([
    host.call('clips.open', { clipId }, { signal }),
    host.call('sessions.list', {}, { signal }),
  ])
  if (clip.problem) throw clip.problem
  const session = sessions.find(each => each.id === sessionId)
  if (!session) throw new WhorlError('not-in-workspace', { what: 'session', id: sessionId })
  if (!clip.probe)
    throw new WhorlError('file-unreadable', { path: clip.path, what: 'it is still being looked at' })
  // Only warms the decoder; a picture that cannot be had is told where it would stand.
  host.call('clips.prepare', { clipId, window: hit.marks.window }, { signal }).catch(() => {})
  return benchStore(host, { hit, clip, session, timestampsSeconds })
}

/** A capture rate may be given here or in another window: the times and the reading follow it. */
function followClip(host: Host, store: BenchStore): () => void {
  return host.on(event => {
    const { clip } = store.getState()
    if (event.kind !== 'changed' || event.what !== 'clips' || (event.id !== null && event.id !== clip.id))
      return
    host.call('clips.open', { clipId: clip.id }).then(
      opened => opened.clip.probe && store.getState().setClip(opened.clip),
      // The clip that is open stays as it was; a step that needs the host will say what is wrong.
      () => {},
    )
  })
}

/** A hit that is read from the surface gets its reading from the host, some time after what changed it. */
function followReading(host: Host, store: BenchStore): () => void {
  let isMissed = false
  const ask = () => {
    const { hit, saving, marks } = store.getState()
    // Before the last step is saved the host's word would be an older one.
    isMissed = saving
    if (saving || marks.readFrom !== 'surface') return
    host.call('hits.open', { hitId: hit.row.hitId }).then(
      fresh => (store.getState().saving ? undefined : store.getState().refresh(fresh)),
      // What is shown stays; the next step says what is wrong.
      () => {},
    )
  }
  const stops = [
    host.on(event => {
      const { hitId } = store.getState().hit.row
      if (event.kind === 'changed' && event.what === 'hits' && event.id === hitId) ask()
    }),
    store.subscribe(({ saving }, before) => {
      if (isMissed && before.saving && !saving) ask()
    }),
  ]
  return () => {
    for (const stop of stops) stop()
  }
}
