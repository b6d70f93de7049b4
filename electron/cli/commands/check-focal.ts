import type { FocalCheck } from '../../../core/contract/focal-check.ts'
import { WhorlError } from '../../../core/contract/problem.ts'
import { ballKinds, ballNamed } from '../../../core/planning/balls.ts'
import {
  focalCheckOf,
  focalFromAngle,
  focalFromBall,
  focalFromWidth,
} from '../../../core/planning/focal-length.ts'
import { command, json } from '../command.ts'
import { keepInCamera, saveOptions } from '../keep-in-camera.ts'
import { angleDegrees, lengthMetres, oneOf, pictureSize, positiveNumber, share } from '../values.ts'

/** What a tape measure, a data sheet and clicks at a ball's rim are good for, standard: common practice, no source. */
const usual = { distance: 0.01, width: 0.005, angleDeg: 1, rimPx: 1 }
/** A ball whose size is given by hand was measured so well, relative. */
const measuredBall = 0.003
const known = ballKinds.map(kind => kind.id)
const ballName = oneOf(known)

export default command({
  says:
    'A camera’s focal length in pixels, from a ball’s size in the picture at a known distance, from a field of view\n' +
    'or from the width that the picture spans at a distance.',
  takes: '',
  words: { least: 0, most: 0 },
  options: {
    picture: { takes: 'WxH', says: 'picture in pixels', read: pictureSize },
    'diameter-px': {
      takes: 'N',
      says: 'the ball’s size in the picture, near its middle',
      read: positiveNumber,
    },
    'diameter-px-to': { takes: 'N', says: 'and its standard uncertainty, px (1)', read: positiveNumber },
    ball: { takes: 'NAME', says: known.join(', '), read: ballName },
    'ball-diameter': { takes: 'L', says: 'or: the ball’s size across', read: lengthMetres },
    view: { takes: 'ANGLE', says: 'or: field of view across the picture, as 60 or 60°', read: angleDegrees },
    'view-to': { takes: 'ANGLE', says: 'and its standard uncertainty (1°)', read: angleDegrees },
    'view-width': { takes: 'L', says: 'or: how wide the picture is at the distance', read: lengthMetres },
    distance: { takes: 'L', says: 'from the lens, as 2m or 6ft', read: lengthMetres },
    'distance-to': { takes: 'SHARE', says: 'how well it is known, standard uncertainty (1%)', read: share },
    ...saveOptions,
    json,
  },
  example: 'whorl check-focal --ball pickleball --diameter-px 62.5 --distance 2m --picture 1920x1080',
  run: async ({ options }, world) => {
    const ways = { ball: options['diameter-px'], view: options.view, width: options['view-width'] }
    const given = (Object.keys(ways) as (keyof typeof ways)[]).filter(way => ways[way] !== undefined)
    if (given.length !== 1)
      throw usage(`Expected one of --diameter-px, --view and --view-width, got ${given.length || 'none'}.`)
    const needed = <T>(value: T | undefined, name: string): T => {
      if (value === undefined) throw usage(`--${name} is missing.`)
      return value
    }
    const [widthPx] = needed(options.picture, 'picture')
    const distance = () => {
      const distanceMetres = needed(options.distance, 'distance')
      return {
        distanceMetres,
        distanceUncertaintyMetres: distanceMetres * (options['distance-to'] ?? usual.distance),
      }
    }
    const ball = () => {
      const own = options['ball-diameter']
      if (own !== undefined) return { diameterMetres: own, diameterUncertaintyMetres: measuredBall * own }
      const kind = ballNamed(needed(options.ball, 'ball or --ball-diameter'))!
      // Anywhere within what its rules allow, and as unsure as a measured one at least.
      const rules = (kind.mostMetres - kind.leastMetres) / 2 / Math.sqrt(3)
      return {
        diameterMetres: kind.diameterMetres,
        diameterUncertaintyMetres: Math.max(rules, measuredBall * kind.diameterMetres),
      }
    }
    const found = {
      ball: () =>
        focalFromBall({
          widthPx,
          diameterPx: ways.ball!,
          diameterUncertaintyPx: options['diameter-px-to'] ?? usual.rimPx,
          ...ball(),
          ...distance(),
        }),
      view: () =>
        focalFromAngle({
          widthPx,
          acrossDeg: ways.view!,
          uncertaintyDeg: options['view-to'] ?? usual.angleDeg,
        }),
      width: () =>
        focalFromWidth({
          widthPx,
          widthMetres: ways.width!,
          widthUncertaintyMetres: usual.width * ways.width!,
          ...distance(),
        }),
    }
    const check = focalCheckOf(given[0]!, found[given[0]!]())
    const kept = keepInCamera(options, world, null, day => ({
      focal: {
        focalLengthPx: check.focalLengthPx,
        uncertaintyPx: check.standardUncertaintyPx,
        by: { way: check.way, clip: null, day },
      },
    }))
    world.out(options.json ? `${JSON.stringify(check)}\n` : told(check) + kept)
    return 0
  },
})

const usage = (what: string) => new WhorlError('usage', { what, hint: 'See whorl check-focal --help.' })

const told = ({ focalLengthPx, standardUncertaintyPx, acrossDeg, remarks }: FocalCheck): string =>
  [
    `focal length ${focalLengthPx.toFixed(1)} ± ${(2 * standardUncertaintyPx).toFixed(1)} px (standard uncertainty ${standardUncertaintyPx.toFixed(1)} px)`,
    `across       ${acrossDeg.toFixed(1)}°`,
    ...remarks,
    '',
  ].join('\n')
