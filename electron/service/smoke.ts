import { join } from 'node:path'
import type { CallAnswer, CallInput, CallName } from '../../core/contract/calls.ts'
import { WhorlError } from '../../core/contract/problem.ts'
import type { SessionDetails } from '../../core/contract/workspace.ts'
import { places } from './places.ts'
import { trueRpmOf } from './sample-truth.ts'

/** The page's calls, through whichever shell is looked at. */
export type Ask = <N extends CallName>(name: N, input: CallInput<N>) => Promise<CallAnswer<N>>

/** The smallest sample. */
const clip = 'topspin-240-c.mp4'
/** It is far below its ceiling and shows a whole ball: an installation that works reads it much better. */
const farOff = 0.01
/** A machine under load takes a minute; what takes longer hangs. */
const longestMilliseconds = 5 * 60_000

const session: SessionDetails = {
  day: '2026-01-01',
  place: 'Check of the installation',
  camera: {
    name: '',
    captureFps: 240,
    relativeUncertainty: null,
    exposureSeconds: 1 / 2000,
    readoutSeconds: null,
    readoutUncertaintySeconds: null,
    focalLengthPx: null,
  },
  ball: { name: 'pickleball', diameterMetres: 0.0742 },
  hitBy: '',
  maxRpm: null,
  clickStandardUncertaintyPx: null,
  notes: '',
}

/**
 * Whether this installation works: brings one sample clip in, has it read (decoder, workers, store), and holds
 * the figure against the rate that the clip was rendered with. Answers what to say of it.
 *
 * @throws `smoke-failed` where the figure is not that, and whatever a call throws
 */
export async function readOneSample(ask: Ask): Promise<string> {
  let timer: NodeJS.Timeout | undefined
  const tooLong = new Promise<never>((_, reject) => {
    const give = () => reject(new WhorlError('smoke-failed', { what: 'it took too long' }))
    timer = setTimeout(give, longestMilliseconds)
  })
  try {
    return await Promise.race([sampleRead(ask), tooLong])
  } finally {
    clearTimeout(timer)
  }
}

async function sampleRead(ask: Ask): Promise<string> {
  const { id: sessionId } = await ask('sessions.create', { details: session })
  const { clips } = await ask('clips.add', { sessionId, paths: [join(places.samples, clip)] })
  const { hitIds } = await ask('clips.read', { clipId: clips[0]!.id })
  const [hit] = await ask('hits.list', { sessionId })
  const rpm = hit?.reading?.rpm ?? null
  if (hitIds.length !== 1 || !hit || rpm === null)
    throw new WhorlError('smoke-failed', { what: `${hitIds.length} hits were found in ${clip}` })
  const truth = trueRpmOf(clip, hit.window) ?? Number.NaN
  if (!(Math.abs(rpm / truth - 1) < farOff))
    throw new WhorlError('smoke-failed', { what: `${clip} turns at ${truth} rpm and was read as ${rpm}` })
  return `Whorl opens and reads: ${clip} turns at ${Math.round(rpm)} rpm (truth ${truth}).`
}
