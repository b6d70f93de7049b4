import { setTimeout as sleep } from 'node:timers/promises'
import type { Progress } from '../../core/contract/calls.ts'
import { problemOf, WhorlError } from '../../core/contract/problem.ts'
import type { Media } from '../media/media.ts'
import { readOnce } from '../service/read-once.ts'
import { readingDocumentOf } from '../service/reading-document.ts'
import type { Vision } from '../vision/vision.ts'
import { type Answer, type Flights, noFlights } from './answer.ts'
import { findClip } from './find-clip.ts'
import { questionId } from './question.ts'
import type { ClipQueue, Taken } from './queue.ts'

export type WorkOptions = {
  /** Where to look for a clip that is not at the path it was put with. */
  folders: readonly string[]
  /** End when nothing waits and nobody reads; otherwise only the signal ends it. */
  untilEmpty: boolean
  signal: AbortSignal
  answered(clip: Taken, answer: Answer): void
  /** A clip that went back, or a server that is waited for. */
  trouble(thrown: unknown): void
  progress(progress: Progress): void
}

/** While the flights of one clip are read, the next is decoded. */
const atOnce = 2
const pollMilliseconds = 2000
const longestPauseMilliseconds = 60_000

/** What lies in the clip itself: no other machine would find more in it. */
const finalProblems = [
  'clip-empty',
  'clip-not-video',
  'clip-no-frames',
  'clip-points-elsewhere',
  'clip-too-small',
]

/** Takes clips from the queue, reads them and stores what came out, until the signal or the end of the queue. */
export async function work(
  queue: ClipQueue,
  { media, vision }: { media: Media; vision: Vision },
  { folders, untilEmpty, signal, answered, trouble, progress }: WorkOptions,
): Promise<void> {
  let notHere = 0
  const pause = (milliseconds: number) => sleep(milliseconds, undefined, { signal }).catch(() => {})

  async function answerTo(clip: Taken, within: AbortSignal): Promise<{ answer: Answer; flights: Flights }> {
    const { path, sha256, question } = clip
    if (questionId(sha256, question) !== clip.id) throw new WhorlError('queue-other-version', { path })
    const found = await findClip(clip, folders, within)
    notHere = 0
    try {
      const job = { signal: within, progress }
      const probe = await media.probe(found, { ...job, sha256, captureFps: question.captureFps })
      const read = await readOnce(vision, null, found, { ...question, clip: probe }, job)
      const { outlines, contacts, features } = read
      const answer = readingDocumentOf({ ...read, clip: { ...read.clip, path } })
      return { answer, flights: { outlines, contacts, features } }
    } catch (thrown) {
      const problem = problemOf(thrown)
      if (!finalProblems.includes(problem.code)) throw thrown
      // As every machine would say it: by the path that the clip was put with.
      const answer = { ...problem, message: problem.message.replace(found, path) }
      return { answer, flights: noFlights }
    }
  }

  /** Asks the server again and again while it is away: one that took part once comes back. */
  async function patiently<T>(ask: () => Promise<T>): Promise<T> {
    for (let isAway = false; ; isAway = true) {
      try {
        return await ask()
      } catch (thrown) {
        const { code } = problemOf(thrown)
        if (signal.aborted || (code !== 'server-away' && code !== 'target-locked')) throw thrown
        if (!isAway) trouble(thrown)
        await pause(pollMilliseconds)
      }
    }
  }

  async function read(clip: Taken): Promise<void> {
    const late = AbortSignal.timeout(clip.timeLimitSeconds * 1000)
    const read = await answerTo(clip, AbortSignal.any([signal, late])).catch(async (thrown: unknown) => {
      const why = late.aborted ? tooLate(clip) : thrown
      const { message, hint } = problemOf(why)
      const said = signal.aborted ? 'The worker was stopped.' : `${message} ${hint}`
      await patiently(() => queue.giveBack(clip, said))
      if (signal.aborted) return null
      trouble(why)
      // Who has none of the clips must not use up the attempts of those who have them.
      if (why instanceof WhorlError && why.code === 'queue-clip-not-here')
        await pause(Math.min(longestPauseMilliseconds, pollMilliseconds * 2 ** notHere++))
      return null
    })
    if (read === null) return
    await patiently(() => queue.answer(clip, read.answer, read.flights))
    answered(clip, read.answer)
  }

  async function takeOn(): Promise<void> {
    while (!signal.aborted) {
      await patiently(queue.giveBackOfTheGone)
      const clip = await patiently(queue.take)
      if (clip) await read(clip)
      else if (untilEmpty && (await patiently(queue.isEmpty))) return
      else await pause(pollMilliseconds)
    }
  }
  // What could not be said to the server any more, it finds out when the worker is gone.
  const ended = (thrown: unknown) => (signal.aborted ? undefined : Promise.reject(thrown))
  await Promise.all(Array.from({ length: atOnce }, () => takeOn().catch(ended)))
}

const tooLate = ({ path, timeLimitSeconds }: Taken) =>
  new WhorlError('queue-too-late', { path, seconds: timeLimitSeconds })
