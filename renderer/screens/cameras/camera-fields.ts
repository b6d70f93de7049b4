import type { CameraProfileDetails, FoundBy } from '../../../core/contract/cameras.ts'
import { focalOfText } from '../../../core/planning/focal-of-text.ts'
import { textOfSeconds } from '../../../core/units/duration.ts'
import { inMilliseconds, typed, type Understood } from '../../components/typed.ts'

/** What the camera form holds: each field as the person typed it. Empty means "not known". */
export type CameraTexts = Record<
  | 'name'
  | 'picture'
  | 'fps'
  | 'rate'
  | 'rateUncertainty'
  | 'readout'
  | 'readoutUncertainty'
  | 'focal'
  | 'focalUncertainty'
  | 'exposure'
  | 'notes',
  string
>
export type CameraField = keyof CameraTexts
export type CameraRead = Understood<CameraField> & { details: CameraProfileDetails | null }

/** A true rate farther than this from the set one is a mistake: another mode, or another unit. */
const farthestRate = 0.3

const plain = (text: string) => text.replace(/\u00a0/g, ' ')
const figure = (value: number | null | undefined, unit = '') =>
  value == null ? '' : `${Number(value.toPrecision(9))}${unit}`
const milliseconds = (seconds: number | null | undefined) =>
  seconds == null ? '' : `${Number((1000 * seconds).toPrecision(6))} ms`

/** The form as it opens on a camera; without one, on a new one. */
export const cameraTexts = (camera: CameraProfileDetails | null): CameraTexts => ({
  name: camera?.name ?? '',
  picture: camera?.widthPx && camera.heightPx ? `${camera.widthPx} × ${camera.heightPx}` : '',
  fps: figure(camera?.nominalFps),
  rate: figure(camera?.rate?.captureFps),
  rateUncertainty: camera?.rate ? `${figure(100 * camera.rate.relativeUncertainty)} %` : '',
  readout: milliseconds(camera?.readout?.seconds),
  readoutUncertainty: milliseconds(camera?.readout?.uncertaintySeconds),
  focal: figure(camera?.focal?.focalLengthPx, ' px'),
  focalUncertainty: figure(camera?.focal?.uncertaintyPx),
  exposure: camera?.exposureSeconds ? plain(textOfSeconds(camera.exposureSeconds)) : '',
  notes: camera?.notes ?? '',
})

/**
 * Reads the form. A figure that a person typed is theirs, said today; one that stands as it was measured keeps
 * the check that it came from.
 */
export function cameraRead(texts: CameraTexts, before: CameraProfileDetails | null, day: string): CameraRead {
  const read = typed(texts)
  const { notes, problems, take, known } = read
  const unchanged = (...fields: CameraField[]) => {
    const old = cameraTexts(before)
    return before !== null && fields.every(field => texts[field] === old[field])
  }
  const said: FoundBy = { way: 'said', clip: null, day }
  const name = take('name', texts.name.trim() || null, 'A name, to choose it by.')
  const size = known('picture', read.picture)
  const nominalFps = read.number('fps')
  const captureFps = known('rate', field => read.number(field))
  const relativeUncertainty = known('rateUncertainty', read.share)
  const seconds = known('readout', read.readout)
  const uncertaintySeconds = known('readoutUncertainty', field =>
    read.time(field, 'A time as 0.2 ms, or empty.'),
  )
  const focalLengthPx = known('focal', field =>
    take(
      field,
      focalOfText(texts.focal, size?.[0] ?? Number.NaN, null) || null,
      size ? 'As 60° or 1600 px.' : 'As 1600 px; an angle needs the picture’s size too.',
      px => `${px.toFixed(0)}\u00a0px`,
    ),
  )
  const uncertaintyPx = known('focalUncertainty', field => read.number(field, 'zero'))
  const exposureSeconds = known('exposure', field => read.exposure(field))

  if (captureFps !== null && nominalFps !== null && Math.abs(captureFps / nominalFps - 1) > farthestRate)
    problems.rate = `Far from the ${nominalFps} fps that it is set to. Another mode is another camera here.`
  if (captureFps === null && relativeUncertainty !== null && !problems.rate)
    problems.rate = 'The rate that this is the uncertainty of.'
  if (captureFps !== null && relativeUncertainty === null)
    problems.rateUncertainty ??= 'How well it is known, as 0.05 %.'
  const frameSeconds = nominalFps === null ? Number.POSITIVE_INFINITY : 1 / nominalFps
  for (const [field, value] of [
    ['exposure', exposureSeconds],
    ['readout', seconds],
  ] as const)
    if (value !== null && value > frameSeconds * (1 + 1e-9))
      problems[field] = `Longer than a frame, which takes ${inMilliseconds(frameSeconds)}.`

  if (Object.keys(problems).length > 0 || name === null || nominalFps === null)
    return { details: null, notes, problems }
  return {
    notes,
    problems,
    details: {
      name,
      widthPx: size?.[0] ?? null,
      heightPx: size?.[1] ?? null,
      nominalFps,
      rate:
        captureFps === null || relativeUncertainty === null
          ? null
          : before?.rate && unchanged('rate', 'rateUncertainty')
            ? before.rate
            : { captureFps, relativeUncertainty, by: said },
      readout:
        seconds === null
          ? null
          : before?.readout && unchanged('readout', 'readoutUncertainty')
            ? before.readout
            : { seconds, uncertaintySeconds, by: said },
      focal:
        focalLengthPx === null
          ? null
          : before?.focal && unchanged('focal', 'focalUncertainty')
            ? before.focal
            : { focalLengthPx, uncertaintyPx, by: said },
      exposureSeconds,
      notes: texts.notes.trim(),
    },
  }
}
