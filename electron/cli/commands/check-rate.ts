import { basename, resolve } from 'node:path'
import type { CheckAsk } from '../../../core/contract/checks.ts'
import { WhorlError } from '../../../core/contract/problem.ts'
import type { RateCheck } from '../../../core/contract/rate-check.ts'
import { counterRate } from '../../../core/planning/rate-check/counter-rate.ts'
import { dropRate } from '../../../core/planning/rate-check/drop-rate.ts'
import { rateCheckOf } from '../../../core/planning/rate-check/rate-check-of.ts'
import { turntableRate } from '../../../core/planning/rate-check/turntable-rate.ts'
import { usualSetUp } from '../../../core/planning/usual-set-up.ts'
import { createMedia } from '../../media/create-media.ts'
import { checkClip } from '../../service/check-clip.ts'
import { createVision } from '../../vision/vision.ts'
import { command, json } from '../command.ts'
import { keepInCamera, saveOptions } from '../keep-in-camera.ts'
import { marksOf, textOfFile } from '../marks-file.ts'
import { lengthMetres, positiveNumber, share } from '../values.ts'
import type { World } from '../world.ts'

const usualDiameterMetres = usualSetUp.ballDiameterMetres

export default command({
  says:
    'The rate at which a camera really filmed, from something of known speed: a turntable, a dropped ball, a\n' +
    'mains lamp, or a counter (first frames that show a count). FILE is a clip that shows it; of a turntable or\n' +
    'a drop it may be marks (.json). Both are taken as filmed at the rate that the camera was set to.',
  takes: '[FILE]',
  words: { least: 0, most: 1 },
  options: {
    turntable: {
      takes: 'RPM',
      says: 'FILE shows something with a clear pattern that turns at RPM',
      read: positiveNumber,
    },
    drop: { takes: 'KG', says: 'FILE shows a falling ball of this mass', read: positiveNumber },
    'ball-diameter': {
      takes: 'L',
      says: `of a drop in a clip: the ball’s size across (${1000 * usualDiameterMetres} mm)`,
      read: lengthMetres,
    },
    lamp: {
      takes: 'HZ',
      says: 'FILE is a clip of a lamp that flashes so often: 100 or 120',
      read: positiveNumber,
    },
    counter: { takes: 'T', says: 'no FILE: seconds that one step of a counter takes', read: positiveNumber },
    steps: { takes: 'N', says: 'of the counter: steps between the two frames', read: positiveNumber },
    frames: { takes: 'N', says: 'of the counter: frames between them', read: positiveNumber },
    fps: {
      takes: 'N',
      says: 'of a clip and the counter: the rate that the camera was set to',
      read: positiveNumber,
    },
    'known-to': {
      takes: 'SHARE',
      says: 'how well the known speed is known, standard uncertainty: 0.002 or 0.2%',
      read: share,
    },
    ...saveOptions,
    json,
  },
  example: 'whorl check-rate --turntable 33.333 --known-to 0.1% --fps 240 table.mp4',
  run: async ({ words, options }, world) => {
    const ways = (['turntable', 'drop', 'lamp', 'counter'] as const).filter(way => options[way] !== undefined)
    if (ways.length !== 1)
      throw usage(`Expected one of --turntable, --drop, --lamp and --counter, got ${ways.length || 'none'}.`)
    const way = ways[0]!
    if (words.length !== (way === 'counter' ? 0 : 1))
      throw usage(way === 'counter' ? '--counter takes no file.' : `--${way} needs a file.`)
    const known = options['known-to']
    const file = words[0] === undefined ? '' : resolve(words[0])
    const isMarks = file.endsWith('.json')
    const marksRead = () => marksOf(textOfFile(file), file)
    const needed = (name: 'fps' | 'steps' | 'frames') => {
      const value = options[name]
      if (value === undefined) throw usage(`--${way} needs --${name}.`)
      return value
    }
    const checks: Record<typeof way, () => Promise<RateCheck>> = {
      turntable: async () => {
        const turning = { knownRpm: options.turntable!, knownRelative: known ?? 0.002 }
        if (!isMarks) return ofClip(file, { way: 'turntable', nominalFps: needed('fps'), ...turning }, world)
        const marks = marksRead()
        return rateCheckOf(
          way,
          marks.capture.fps,
          turntableRate(marks, turning.knownRpm, turning.knownRelative),
        )
      },
      drop: async () => {
        const massKilograms = options.drop!
        if (isMarks) {
          const marks = marksRead()
          return rateCheckOf(way, marks.capture.fps, dropRate(marks, massKilograms))
        }
        const diameterMetres = options['ball-diameter'] ?? usualDiameterMetres
        return ofClip(file, { way: 'drop', nominalFps: needed('fps'), massKilograms, diameterMetres }, world)
      },
      lamp: async () => {
        const lamp = { lampHertz: options.lamp!, knownRelative: known }
        return ofClip(file, { way: 'lamp', nominalFps: needed('fps'), ...lamp }, world)
      },
      counter: async () => {
        const run = {
          fromFrame: 0,
          toFrame: needed('frames'),
          steps: needed('steps'),
          stepSeconds: options.counter!,
        }
        return rateCheckOf(way, needed('fps'), counterRate(run, known))
      },
    }
    const check = await checks[way]()
    const { nominalFps, captureFps, relativeUncertainty } = check
    const clip = way === 'counter' || isMarks ? null : basename(file)
    const kept = keepInCamera(options, world, nominalFps, day => ({
      rate: { captureFps, relativeUncertainty, by: { way, clip, day } },
    }))
    world.out(options.json ? `${JSON.stringify(check)}\n` : told(check) + kept)
    return 0
  },
})

const usage = (what: string) => new WhorlError('usage', { what, hint: 'See whorl check-rate --help.' })

async function ofClip(path: string, ask: CheckAsk, world: World): Promise<RateCheck> {
  const media = createMedia()
  const vision = createVision(media)
  try {
    return (await checkClip({ media, vision }, path, ask, { signal: world.signal })).rate!
  } finally {
    await vision.close()
    await media.close()
  }
}

function told({ nominalFps, captureFps, relativeUncertainty, rpmFactor, remarks }: RateCheck): string {
  const percent = (part: number) => `${(100 * part).toFixed(3)} %`
  const at2000 = 2000 * (rpmFactor - 1)
  return [
    `filmed at ${captureFps.toFixed(3)} ± ${(2 * relativeUncertainty * captureFps).toFixed(3)} fps (standard uncertainty ${percent(relativeUncertainty)})`,
    `set to    ${nominalFps} fps: readings made with that are ${percent(Math.abs(rpmFactor - 1))} too ${rpmFactor < 1 ? 'high' : 'low'}, ${Math.abs(at2000).toFixed(1)} rpm at 2000`,
    ...remarks,
    '',
  ].join('\n')
}
