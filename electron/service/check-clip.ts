import type { CheckAsk, CheckDone, CheckEvidence } from '../../core/contract/checks.ts'
import type { Marks } from '../../core/contract/marks.ts'
import { counterRate } from '../../core/planning/rate-check/counter-rate.ts'
import { dropRate } from '../../core/planning/rate-check/drop-rate.ts'
import { lampRate } from '../../core/planning/rate-check/lamp-rate.ts'
import { rateCheckOf } from '../../core/planning/rate-check/rate-check-of.ts'
import type { RateFound } from '../../core/planning/rate-check/rate-found.ts'
import { turningRate } from '../../core/planning/rate-check/turning-rate.ts'
import { readoutCheckOf } from '../../core/planning/readout-check/readout-check-of.ts'
import { isWhole } from '../../core/vision/find/by-appearance.ts'
import { meanBrightness } from '../media/mean-brightness.ts'
import type { JobOptions, Media } from '../media/media.ts'
import { readoutOfClip } from '../media/readout-of-clip.ts'
import type { Vision } from '../vision/vision.ts'

type Eyes = { media: Media; vision: Vision }
type Ask<W extends CheckAsk['way']> = Extract<CheckAsk, { way: W }>
type Seen = { found: RateFound; evidence: CheckEvidence | null }

/** Longer clips are read so far: more turns or flashes make no figure better than what is known of them. */
const mostFrames = 2400
const turningWidthPx = 48
/** Points drawn of a lamp's light. */
const mostPoints = 240

/** Checks a camera by a clip. Throws `rate-not-checked` or `readout-not-checked` with reason and way out. */
export async function checkClip(
  eyes: Eyes,
  path: string,
  ask: CheckAsk,
  job: JobOptions,
): Promise<CheckDone> {
  if (ask.way === 'bands' || ask.way === 'spin' || ask.way === 'edge') {
    const { captureFps } = ask
    const asked = ask.way === 'bands' ? { way: 'lamp' as const, lampHertz: ask.lampHertz, captureFps } : ask
    const found = await readoutOfClip(eyes.media, path, asked, job)
    const readout = readoutCheckOf(asked.way, captureFps, found)
    return { rate: null, readout, evidence: found.measured ? found.evidence : null }
  }
  const { found, evidence } = await seen(eyes, path, ask, job)
  return { rate: rateCheckOf(ask.way, ask.nominalFps, found), readout: null, evidence }
}

function seen(eyes: Eyes, path: string, ask: Exclude<CheckAsk, { captureFps: number }>, job: JobOptions) {
  switch (ask.way) {
    case 'turntable':
      return turntable(eyes, path, ask, job)
    case 'drop':
      return drop(eyes, path, ask, job)
    case 'lamp':
      return lamp(eyes, path, ask, job)
    case 'counter':
      return { found: counterRate(ask), evidence: null }
  }
}

async function windowOf(media: Media, path: string, job: JobOptions) {
  const { length } = await media.timestamps(path, { signal: job.signal })
  return { fromFrame: 0, toFrame: Math.min(length, mostFrames) - 1 }
}

async function turntable(
  { media }: Eyes,
  path: string,
  ask: Ask<'turntable'>,
  job: JobOptions,
): Promise<Seen> {
  const pictures: Uint8Array[] = []
  for await (const { data } of media.lumaWindow(path, await windowOf(media, path, job), {
    ...job,
    maxWidthPx: turningWidthPx,
  }))
    pictures.push(data.slice())
  const { found, differences } = turningRate(pictures, ask)
  if (!found.measured) return { found, evidence: null }
  const turn = (60 * found.captureFps) / ask.knownRpm
  const farthest = differences.at(-1)?.framesApart ?? 0
  return {
    found,
    evidence: {
      points: differences.map(({ framesApart, difference }) => [framesApart, difference]),
      joined: true,
      xWords: 'frames apart',
      yWords: 'difference of the pictures',
      lines: [1, 2].flatMap(k =>
        k * turn <= farthest ? [{ x: k * turn, word: k === 1 ? 'one turn' : 'two turns' }] : [],
      ),
      fit: null,
    },
  }
}

async function lamp({ media }: Eyes, path: string, ask: Ask<'lamp'>, job: JobOptions): Promise<Seen> {
  const light = await meanBrightness(media, path, await windowOf(media, path, job), job)
  return {
    found: lampRate(light, ask.lampHertz, ask.nominalFps, ask.knownRelative),
    evidence: {
      points: light.slice(0, mostPoints).map((value, frame) => [frame, value]),
      joined: true,
      xWords: 'frame',
      yWords: 'brightness',
      lines: [],
      fit: null,
    },
  }
}

async function drop({ vision }: Eyes, path: string, ask: Ask<'drop'>, job: JobOptions): Promise<Seen> {
  const { clip, outlines } = await vision.readClip(
    path,
    { captureFps: ask.nominalFps, ballDiameterMetres: ask.diameterMetres },
    job,
  )
  const falls = outlines.map(all => longestFall(all.filter(({ outline }) => isWhole(outline, clip))))
  const falling = falls.toSorted((a, b) => b.length - a.length)[0] ?? []
  const marks: Marks = {
    schema: 'whorl.marks/1',
    capture: { fps: ask.nominalFps },
    picture: { widthPx: clip.widthPx, heightPx: clip.heightPx },
    ball: { diameterMetres: ask.diameterMetres },
    marks: [{ id: 'ball', symmetryOrder: 1 }],
    frames: falling.map(({ frame, outline }) => ({ index: frame, outline, seen: [] })),
  }
  return {
    found: dropRate(marks, ask.massKilograms),
    evidence: {
      points: falling.map(({ frame, outline }) => [frame, outline.yPx]),
      joined: false,
      xWords: 'frame',
      yWords: 'height of the ball from the top, px',
      lines: [],
      fit: null,
    },
  }
}

/** The longest stretch in which the ball goes down from frame to frame: before the floor, after the hand. */
function longestFall<T extends { outline: { yPx: number } }>(flight: readonly T[]): T[] {
  let best: T[] = []
  let run: T[] = []
  for (const seenAt of flight) {
    const last = run.at(-1)
    run = last === undefined || seenAt.outline.yPx > last.outline.yPx ? [...run, seenAt] : [seenAt]
    if (run.length > best.length) best = run
  }
  return best
}
