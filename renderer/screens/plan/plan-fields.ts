import type { CameraProfile } from '../../../core/contract/cameras.ts'
import { type PlannedMark, type PlanSetUp, planSetUpSchema } from '../../../core/contract/plan.ts'
import { absurdIn } from '../../../core/planning/absurd.ts'
import { ballKinds, ballNamed } from '../../../core/planning/balls.ts'
import { focalOfText } from '../../../core/planning/focal-of-text.ts'
import { usualSetUp } from '../../../core/planning/usual-set-up.ts'
import { degOfRad } from '../../../core/units/angle.ts'
import { textOfSeconds } from '../../../core/units/duration.ts'
import { metresOfText, textOfMetres } from '../../../core/units/length.ts'
import { metresPerSecondOfText } from '../../../core/units/speed.ts'
import { inMetres, typed, type Understood } from '../../components/typed.ts'

/** What the plan's form holds: each field as the person typed it. */
export type PlanTexts = {
  /** The camera that the fields were filled from, by name; empty for none. */
  camera: string
  fps: string
  exposure: string
  presentExposure: string
  picture: string
  view: string
  distance: string
  readout: string
  ball: string
  rpm: string
  speed: string
  mark: PlannedMark
  markFromAxis: string
  axisTilt: string
  senseKnown: boolean
  click: string
  frames: string
  between: string
  wanted: string
}
export type PlanField = keyof PlanTexts
export type PlanRead = Understood<PlanField> & { setUp: PlanSetUp | null }

export const startTexts: PlanTexts = {
  camera: '',
  fps: String(usualSetUp.captureFps),
  exposure: '1/1000',
  presentExposure: '',
  picture: `${usualSetUp.widthPx} × ${usualSetUp.heightPx}`,
  view: '60°',
  distance: '2 m',
  readout: '4 ms',
  ball: ballKinds[0]!.name,
  rpm: String(usualSetUp.rpm),
  speed: '15 m/s',
  mark: usualSetUp.mark,
  markFromAxis: `${usualSetUp.markFromAxisDeg}°`,
  axisTilt: '0°',
  senseKnown: usualSetUp.senseKnown,
  click: String(usualSetUp.clickPx),
  frames: String(usualSetUp.mostFrames),
  between: String(usualSetUp.betweenHitSdRpm),
  wanted: String(usualSetUp.wantedHalfWidthRpm),
}

/** The form filled from a camera: what is known of it, and the rest as it was. */
export const filledFrom = (texts: PlanTexts, camera: CameraProfile): PlanTexts => ({
  ...texts,
  camera: camera.name,
  fps: String(camera.nominalFps),
  ...(camera.exposureSeconds === null ? {} : { exposure: textOfSeconds(camera.exposureSeconds) }),
  ...(camera.widthPx && camera.heightPx ? { picture: `${camera.widthPx} × ${camera.heightPx}` } : {}),
  ...(camera.readout === null
    ? {}
    : { readout: `${Number((1000 * camera.readout.seconds).toPrecision(4))} ms` }),
  ...(camera.focal === null ? {} : { view: `${Math.round(camera.focal.focalLengthPx)} px` }),
})

/** Reads the form. Nothing is guessed: what is not understood is a problem at its field. */
export function planRead(texts: PlanTexts): PlanRead {
  const { senseKnown, mark, camera: _, ...rest } = texts
  const read = typed(rest)
  const { notes, problems, take } = read
  /** What is missing is a problem already, and the set-up then goes unused. */
  const sure = (value: number | null) => value ?? Number.NaN
  const angle = (field: keyof typeof rest, most: number) => {
    const [, figure] = /^(\d*\.?\d+)\s*(°|deg)?$/.exec(read.textOf(field)) ?? []
    const fits = figure !== undefined && Number(figure) <= most
    return sure(take(field, fits ? Number(figure) : null, `An angle from 0 to ${most}°.`))
  }

  const presentExposureSeconds = read.known('presentExposure', field =>
    read.exposure(field, 'A time as 1/500, or empty.'),
  )
  const distanceMetres = read.length('distance')
  const [widthPx, heightPx] = read.picture('picture') ?? [Number.NaN, Number.NaN]
  const focalLengthPx = take(
    'view',
    focalOfText(texts.view, widthPx, distanceMetres),
    'As 60°, 3 m wide or 1600 px.',
    focal =>
      [
        `${degOfRad(2 * Math.atan(widthPx / 2 / focal)).toFixed(0)}° across`,
        ...(distanceMetres ? [`${inMetres((widthPx * distanceMetres) / focal)} at the ball`] : []),
        `${focal.toFixed(0)}\u00a0px`,
      ].join(', '),
  )
  const kind = ballNamed(texts.ball)
  const ballDiameterMetres = take(
    'ball',
    kind?.diameterMetres ?? metresOfText(texts.ball),
    `${ballKinds.map(each => each.name).join(', ')}, or a size as 74 mm.`,
    metres => `${textOfMetres(metres)}${kind ? ` \u2014 ${kind.source}` : ''}`,
  )
  const speedMetresPerSecond = take(
    'speed',
    metresPerSecondOfText(texts.speed),
    'A speed as 15 m/s, 34 mph or 55 km/h.',
    speed => `${Number(speed.toPrecision(3))}\u00a0m/s`,
  )
  const setUp: PlanSetUp = {
    captureFps: sure(read.number('fps')),
    exposureSeconds: sure(read.exposure('exposure')),
    readoutSeconds: sure(read.readout('readout')),
    widthPx,
    heightPx,
    focalLengthPx: sure(focalLengthPx),
    distanceMetres: sure(distanceMetres),
    ballDiameterMetres: sure(ballDiameterMetres),
    rpm: sure(read.number('rpm')),
    speedMetresPerSecond: sure(speedMetresPerSecond),
    mark,
    markFromAxisDeg: angle('markFromAxis', 180),
    axisTiltDeg: angle('axisTilt', 90),
    senseKnown,
    clickPx: sure(read.number('click')),
    mostFrames: sure(read.number('frames')),
    betweenHitSdRpm: sure(read.number('between', 'zero')),
    wantedHalfWidthRpm: sure(read.number('wanted')),
    presentExposureSeconds,
  }
  return { setUp: usable(setUp, problems), notes, problems }
}

const fieldOf: Partial<Record<keyof PlanSetUp, PlanField>> = {
  captureFps: 'fps',
  exposureSeconds: 'exposure',
  readoutSeconds: 'readout',
  widthPx: 'picture',
  heightPx: 'picture',
  distanceMetres: 'distance',
  speedMetresPerSecond: 'speed',
  mostFrames: 'frames',
  rpm: 'rpm',
}

function usable(setUp: PlanSetUp, problems: PlanRead['problems']): PlanSetUp | null {
  if (Object.keys(problems).length > 0) return null
  const read = planSetUpSchema.safeParse(setUp)
  if (!read.success) {
    const { path, message } = read.error.issues[0]!
    problems[fieldOf[path[0] as keyof PlanSetUp] ?? 'fps'] = `${message}.`
    return null
  }
  const absurd = absurdIn(read.data)
  if (absurd) problems[fieldOf[absurd.field] ?? 'fps'] = `${absurd.what} ${absurd.hint}`
  return absurd ? null : read.data
}
