import type { CameraProfile } from '../../../core/contract/cameras.ts'
import type { CheckAsk } from '../../../core/contract/checks.ts'
import { ballKinds, ballNamed } from '../../../core/planning/balls.ts'
import {
  type FocalFound,
  focalFromAngle,
  focalFromBall,
  focalFromWidth,
} from '../../../core/planning/focal-length.ts'
import { metresOfText, textOfMetres } from '../../../core/units/length.ts'
import { kilogramsOfText } from '../../../core/units/mass.ts'
import { rpmOfText } from '../../../core/units/rate.ts'
import { typed, type Understood } from '../../components/typed.ts'
import type { CheckField, CheckTexts, GuideWay } from './check-ways.ts'

/** What is to be asked of the clip, or (of a focal length) how it is reckoned; null while a field is not understood. */
export type CheckRead = Understood<CheckField> & { ask: CheckAsk | null; focal: (() => FocalFound) | null }

/** Three clicks on a rim, each good to about a pixel as shown, give the size across to about this. */
const rimClicksPx = 1.2
/** A ball of one’s own is measured to about this. */
const ownBallRelative = 0.005

/**
 * Reads the fields of one way.
 *
 * @param widthPx of the picture that is looked at, and how many of its pixels one on the screen is
 */
export function checkRead(
  way: GuideWay,
  texts: CheckTexts,
  camera: CameraProfile,
  { widthPx, shrunk }: { widthPx: number | null; shrunk: number },
): CheckRead {
  const read = typed(texts)
  const { notes, problems, take } = read
  const nominalFps = camera.nominalFps
  const captureFps = camera.rate?.captureFps ?? nominalFps
  const lampHertz = () =>
    take(
      'mains',
      hertzOf(texts.mains),
      'As 50 Hz or 60 Hz.',
      hertz => `a lamp flashes ${hertz} times a second`,
    )
  const ball = () =>
    take(
      'ball',
      ballSized(texts.ball),
      `${ballKinds.map(each => each.name).join(', ')}, or a size as 74 mm.`,
      kind => `${textOfMetres(kind.diameterMetres)} across`,
    )
  const ask = (): CheckAsk | null => {
    switch (way) {
      case 'turntable': {
        const knownRpm = take(
          'rpm',
          rpmOfText(texts.rpm),
          'As 33 1/3, 45 or 78.26.',
          rpm => `${Number(rpm.toPrecision(6))} rpm`,
        )
        const knownRelative = read.share('knownTo')
        return knownRpm === null || knownRelative === null
          ? null
          : { way, nominalFps, knownRpm, knownRelative }
      }
      case 'lamp': {
        const hertz = lampHertz()
        return hertz === null ? null : { way, nominalFps, lampHertz: hertz }
      }
      case 'bands': {
        const hertz = lampHertz()
        return hertz === null ? null : { way, captureFps, lampHertz: hertz }
      }
      case 'spin':
      case 'edge':
        return { way, captureFps }
      case 'drop': {
        const kind = ball()
        const massKilograms = take(
          'mass',
          kilogramsOfText(texts.mass),
          'A weight as 24 g or 0.85 oz.',
          kg => `${Number((1000 * kg).toPrecision(3))}\u00a0g`,
        )
        return kind === null || massKilograms === null
          ? null
          : { way, nominalFps, massKilograms, diameterMetres: kind.diameterMetres }
      }
      case 'counter':
        return counter()
      default:
        return null
    }
  }
  const counter = (): CheckAsk | null => {
    const stepSeconds = read.time('step', 'A time as 1 s or 0.01 s.')
    const fromFrame = frame('fromFrame')
    const toFrame = frame('toFrame')
    const steps = read.number('steps')
    if (fromFrame !== null && toFrame !== null && toFrame <= fromFrame)
      problems.toFrame = 'A later frame than the early one.'
    return stepSeconds === null ||
      fromFrame === null ||
      toFrame === null ||
      steps === null ||
      problems.toFrame
      ? null
      : { way: 'counter', nominalFps, fromFrame, toFrame, steps, stepSeconds }
  }
  const frame = (field: 'fromFrame' | 'toFrame') =>
    take(
      field,
      /^\d{1,9}$/.test(texts[field].trim()) ? Number(texts[field]) : null,
      'A frame, counted from 0.',
    )

  const focal = (): (() => FocalFound) | null => {
    if (way === 'view') {
      const acrossDeg = take('angle', degreesOf(texts.angle), 'An angle as 60°.')
      const uncertaintyDeg = take('angleTo', degreesOf(texts.angleTo), 'An angle as 1°.')
      if (acrossDeg === null || uncertaintyDeg === null || widthPx === null) return null
      return () => focalFromAngle({ widthPx, acrossDeg, uncertaintyDeg })
    }
    const distanceMetres = read.length('distance')
    const distanceUncertaintyMetres = read.length('distanceTo', 'A length as 1 cm.')
    if (way === 'width') {
      const widthMetres = read.length('wide', 'A length as 2.5 m or 8 ft.')
      const widthUncertaintyMetres = read.length('wideTo', 'A length as 1 cm.')
      if (
        distanceMetres === null ||
        distanceUncertaintyMetres === null ||
        widthMetres === null ||
        widthUncertaintyMetres === null ||
        widthPx === null
      )
        return null
      return () =>
        focalFromWidth({
          widthPx,
          widthMetres,
          widthUncertaintyMetres,
          distanceMetres,
          distanceUncertaintyMetres,
        })
    }
    const kind = ball()
    const diameterPx = read.number('across')
    if (
      kind === null ||
      diameterPx === null ||
      distanceMetres === null ||
      distanceUncertaintyMetres === null ||
      widthPx === null
    )
      return null
    return () =>
      focalFromBall({
        widthPx,
        diameterPx,
        diameterUncertaintyPx: rimClicksPx * shrunk,
        diameterMetres: kind.diameterMetres,
        diameterUncertaintyMetres: kind.uncertaintyMetres,
        distanceMetres,
        distanceUncertaintyMetres,
      })
  }
  const isFocal = way === 'ball' || way === 'view' || way === 'width'
  return isFocal
    ? { ask: null, focal: focal(), notes, problems }
    : { ask: ask(), focal: null, notes, problems }
}

/** A lamp flashes at every half wave of the mains. */
function hertzOf(text: string): number | null {
  const mains = Number(/^\s*(\d+(?:\.\d+)?)\s*(?:hz)?\s*$/i.exec(text)?.[1] ?? Number.NaN)
  return mains > 0 ? 2 * mains : null
}

function degreesOf(text: string): number | null {
  const figure = Number(/^\s*(\d*\.?\d+)\s*(?:°|deg)?\s*$/.exec(text)?.[1] ?? Number.NaN)
  return figure > 0 && figure < 180 ? figure : null
}

/** Within what its rules allow every size is as likely as another (JCGM 100:2008, 4.3.7). */
function ballSized(text: string) {
  const kind = ballNamed(text)
  if (kind)
    return {
      diameterMetres: kind.diameterMetres,
      uncertaintyMetres: Math.max(
        ownBallRelative * kind.diameterMetres,
        (kind.mostMetres - kind.leastMetres) / Math.sqrt(12),
      ),
    }
  const diameterMetres = metresOfText(text)
  return diameterMetres === null
    ? null
    : { diameterMetres, uncertaintyMetres: ownBallRelative * diameterMetres }
}
