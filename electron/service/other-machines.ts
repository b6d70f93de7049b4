import type { CallContext } from '../../core/contract/calls.ts'
import { WhorlError } from '../../core/contract/problem.ts'
import type { ClipRecord, Session } from '../../core/contract/workspace.ts'
import { answerOf } from '../queue/answer.ts'
import { questionId, questionOf } from '../queue/question.ts'
import { type ClipQueue, openQueue } from '../queue/queue.ts'
import { type Looked, queuedOf } from '../queue/state.ts'
import { usualTimeLimitSeconds } from '../queue/tables.ts'
import type { ReadClip } from '../vision/read-clip.ts'
import type { Parts } from './parts.ts'
import { askedOf } from './read-once.ts'
import { wordsOf } from './read-queue.ts'

type Needs = Pick<Parts, 'workspace' | 'prober' | 'surface' | 'bus'>

/**
 * Puts every clip of a session that has no hit and waits nowhere on a server's queue. One whose capture rate nobody
 * knows stays: its line asks for it. What was put before a problem or a cancel is put.
 */
export async function putElsewhere(
  { workspace, prober, bus }: Needs,
  sessionId: string,
  server: string,
  { signal, progress }: Pick<CallContext, 'signal' | 'progress'>,
): Promise<void> {
  const session = workspace.session(sessionId)
  const isOut = new Set(workspace.queued().flatMap(one => (isUnread(one.state) ? [one.clipId] : [])))
  const clips = workspace
    .clips(sessionId)
    .filter(({ id, hits, problem }) => hits === 0 && problem === null && !isOut.has(id))
  const queue = await openQueue(server, { supervise: false })
  try {
    for (const [done, clip] of clips.entries()) {
      if (signal.aborted) throw new WhorlError('cancelled', { what: 'Putting clips on the queue' })
      progress({ what: clip.name, done, total: clips.length })
      const probed = clip.probe ? clip : await prober.complete(clip.id, { signal })
      if (await putOne(queue, probed, session)) workspace.putElsewhere(probed.id, queue.place)
    }
  } finally {
    await queue.close()
    bus.say({ kind: 'changed', what: 'queue', id: sessionId })
  }
}

async function putOne(queue: ClipQueue, { probe, path }: ClipRecord, session: Session): Promise<boolean> {
  if (probe === null) return false
  const question = questionOf(askedOf(probe, session))
  if (question.captureFps === null) return false
  const { sha256, bytes } = probe
  await queue.put({ path, sha256, bytes, question, timeLimitSeconds: usualTimeLimitSeconds })
  return true
}

/**
 * Takes what was read of a session's clips on other machines into the workspace: hits as if they had been read here.
 * Each comes once; an answer to another question than the session would ask now does not come. A kill between a clip's
 * hits and the word that it is done has the clip come again, to the hits that are there.
 *
 * @param wholeOf what opens the server of a place
 * @throws why a server does not answer, after the others were asked
 */
export async function takeFromElsewhere(
  { workspace, surface, bus }: Needs,
  sessionId: string,
  wholeOf: (place: string) => string,
): Promise<void> {
  const session = workspace.session(sessionId)
  const out = workspace.queued().filter(one => one.sessionId === sessionId && one.state === 'elsewhere')
  const failed: unknown[] = []
  // One server that is away keeps nothing back of another.
  for (const place of new Set(out.map(({ said }) => said)))
    await takeFrom(place).catch(thrown => failed.push(thrown))
  if (failed.length > 0) throw failed[0]

  async function takeFrom(place: string): Promise<void> {
    const asked = out
      .filter(({ said }) => said === place)
      .map(({ clipId }) => ({ clipId, id: nameOf(workspace.clip(clipId), session) }))
    const looked = await queuedOf(
      wholeOf(place),
      asked.flatMap(({ id }) => id ?? []),
    )
    for (const { clipId, id } of asked) {
      const outcome = outcomeOf(workspace.clip(clipId), id ? looked.get(id) : undefined, place)
      if (outcome === null || !isStillOut(clipId)) continue
      if ('problem' in outcome) workspace.setQueued(clipId, 'failed', outcome.problem)
      else {
        const { said } = surface.takeIn(clipId, outcome.read)
        workspace.setQueued(clipId, 'done', `${said} Read by ${outcome.worker}.`)
      }
      bus.say({ kind: 'changed', what: 'queue', id: sessionId })
    }
  }

  /** While the server was asked, the person or another window may have thought better of it. */
  function isStillOut(clipId: string): boolean {
    return workspace.queued().some(one => one.clipId === clipId && one.state === 'elsewhere')
  }
}

const nameOf = ({ probe }: ClipRecord, session: Session): string | null =>
  probe && questionId(probe.sha256, questionOf(askedOf(probe, session)))

type Outcome = { problem: string } | { read: ReadClip; worker: string }

/** What became of a clip; null while it is waited for. */
function outcomeOf({ probe }: ClipRecord, looked: Looked | undefined, place: string): Outcome | null {
  if (!probe || !looked) return { problem: wordsOf(new WhorlError('queue-not-asked', { place })) }
  if (looked.state === 'failed') return { problem: looked.said }
  if (looked.state !== 'read') return null
  const read = answerOf(probe, looked.answer, looked.flights)
  if (read === null) return { problem: wordsOf(new WhorlError('queue-answer-other', { place })) }
  return 'schema' in read ? { problem: wordsOf(read) } : { read, worker: looked.worker ?? place }
}

const isUnread = (state: string) => state === 'waiting' || state === 'reading' || state === 'elsewhere'
