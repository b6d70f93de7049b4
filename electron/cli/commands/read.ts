import { basename, resolve } from 'node:path'
import type { Sense } from '../../../core/contract/marks.ts'
import { WhorlError } from '../../../core/contract/problem.ts'
import { ballKinds, ballNamed } from '../../../core/planning/balls.ts'
import { createMedia } from '../../media/create-media.ts'
import type { Question } from '../../queue/question.ts'
import { usualTimeLimitSeconds } from '../../queue/tables.ts'
import { createLanes } from '../../service/lanes.ts'
import { readOnce } from '../../service/read-once.ts'
import { readingDocumentOf } from '../../service/reading-document.ts'
import { openWorkspace } from '../../store/open-workspace.ts'
import type { ReadClip } from '../../vision/read-clip.ts'
import { createVision } from '../../vision/vision.ts'
import { command, type Given, json } from '../command.ts'
import { forEachInput } from '../failure.ts'
import { progressBar } from '../progress-bar.ts'
import { putOnQueue } from '../put-on-queue.ts'
import { told } from '../reading-told.ts'
import { durationSeconds, frameNumber, lengthMetres, oneOf, positiveNumber, text } from '../values.ts'

const balls = ballKinds.map(({ id }) => id)
const senses: readonly Sense[] = ['clockwise', 'counter-clockwise']
const options = {
  'capture-fps': { takes: 'N', says: 'frames a second that the camera filmed at', read: positiveNumber },
  exposure: { takes: 'T', says: 'how long the shutter is open, as 1/2000', read: durationSeconds },
  readout: { takes: 'T', says: 'rolling shutter, first row to last, as 4ms', read: durationSeconds },
  'focal-px': {
    takes: 'N',
    says: 'focal length in pixels; found with the spin where left out',
    read: positiveNumber,
  },
  ball: { takes: 'NAME', says: balls.join(', '), read: oneOf(balls) },
  'ball-diameter': { takes: 'L', says: 'or: the ball’s size across', read: lengthMetres },
  'max-rpm': { takes: 'N', says: 'largest plausible rate', read: positiveNumber },
  sense: { takes: 'SENSE', says: `${senses.join(' or ')}, where it is known`, read: oneOf(senses) },
  from: { takes: 'FRAME', says: 'first frame to look at', read: frameNumber },
  to: { takes: 'FRAME', says: 'last frame to look at', read: frameNumber },
  workspace: {
    takes: 'FILE',
    says: 'keep what was read there; what it has already is not read again',
    read: text,
  },
  queue: {
    takes: 'SERVER',
    says: 'read nothing here: put the clips on a queue, postgres://user@host/database, for whorl work',
    read: text,
  },
  'time-limit': {
    takes: 'T',
    says: `on a queue: how long one clip may be read before another tries, ${usualTimeLimitSeconds}s unless said`,
    read: durationSeconds,
  },
  json,
}

/** Clips in work at a time: while the flights of one are read, the next is decoded. */
const atOnce = 2

export default command({
  says:
    'Finds the ball in each clip and reads its spin from the surface: no marks, one reading a flight. Works on all\n' +
    'cores. With --workspace a run that was broken off goes on where it was.',
  takes: 'CLIP…',
  words: { least: 1, most: Number.POSITIVE_INFINITY },
  options,
  example: 'whorl read session/*.mp4 --exposure 1/2000 --json',
  async run({ words, options: given }, world) {
    const asked = askedBy(given)
    if (given.queue !== undefined) return putOnQueue(words, jobBy(given, given.queue, asked), world)
    const kept =
      given.workspace === undefined
        ? null
        : openWorkspace(resolve(given.workspace), { now: () => new Date() })
    const media = createMedia()
    const vision = createVision(media)
    const bar = progressBar(world)
    const stop = new AbortController()
    const signal = AbortSignal.any([world.signal, stop.signal])
    const inLane = createLanes(atOnce)
    let done = 0
    const read = async (word: string): Promise<ReadClip> => {
      const progress = (said: { what: string; done: number; total: number | null }) =>
        bar.show(words.length === 1 ? said : { what: basename(word), done, total: words.length })
      const clip = await media.probe(resolve(word), { captureFps: asked.captureFps, signal, progress })
      return readOnce(vision, kept, clip.path, { ...asked, clip }, { signal, progress })
    }
    // The clips are begun in their order, ahead of the one whose turn it is to be told.
    const begun = words.map(word => inLane(() => read(word)))
    for (const one of begun) one.catch(() => {})
    let next = 0
    try {
      return await forEachInput(words, world, given.json, async word => {
        try {
          const document = readingDocumentOf(await begun[next++]!)
          bar.clear()
          if (given.json) world.out(`${JSON.stringify(document)}\n`)
          else world.out(told(document, words.length > 1 ? resolve(word) : null))
        } finally {
          done++
          bar.clear()
        }
      })
    } finally {
      stop.abort()
      await vision.close()
      await media.close()
      await Promise.allSettled(begun)
      kept?.close()
    }
  },
})

type Options = Given<typeof options>['options']

const longestSeconds = 24 * 3600 - 1

function jobBy(given: Options, server: string, question: Question) {
  const timeLimitSeconds = Math.ceil(given['time-limit'] ?? usualTimeLimitSeconds)
  if (given.workspace !== undefined)
    throw new WhorlError('usage', {
      what: 'A queue keeps its own results; --workspace does not go with it.',
      hint: 'Leave one of --queue and --workspace out.',
    })
  if (timeLimitSeconds > longestSeconds)
    throw new WhorlError('usage', { what: '--time-limit is a day or more.', hint: 'Give less than a day.' })
  return { server, question, timeLimitSeconds, asJson: given.json }
}

function askedBy(given: Options): Question {
  const { from, to } = given
  if ((from === undefined) !== (to === undefined))
    throw new WhorlError('usage', { what: 'A window has two ends.', hint: 'Give both --from and --to.' })
  if (given.ball !== undefined && given['ball-diameter'] !== undefined)
    throw new WhorlError('usage', {
      what: 'Both --ball and --ball-diameter say the size.',
      hint: 'Give one of them.',
    })
  if (from !== undefined && to !== undefined && to < from)
    throw new WhorlError('window-empty', { fromFrame: from, toFrame: to })
  return {
    captureFps: given['capture-fps'] ?? null,
    exposureSeconds: given.exposure,
    readoutSeconds: given.readout,
    focalLengthPx: given['focal-px'],
    ballDiameterMetres:
      given['ball-diameter'] ??
      (given.ball === undefined ? undefined : ballNamed(given.ball)?.diameterMetres),
    plausible: { maxRpm: given['max-rpm'], sense: given.sense },
    window: from === undefined || to === undefined ? undefined : { fromFrame: from, toFrame: to },
  }
}
