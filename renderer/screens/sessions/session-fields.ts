import type { TakenFrom } from '../../../core/contract/cameras.ts'
import type { Camera, SessionDetails } from '../../../core/contract/workspace.ts'
import { textOfSeconds } from '../../../core/units/duration.ts'
import { metresOfText, textOfMetres } from '../../../core/units/length.ts'
import { typed } from '../../components/typed.ts'

/** What the session form holds: each field as the person typed it. Empty means "not known". */
export type SessionTexts = Record<
  | 'day'
  | 'place'
  | 'hitBy'
  | 'cameraName'
  | 'captureFps'
  | 'captureUncertainty'
  | 'exposure'
  | 'readout'
  | 'readoutUncertainty'
  | 'focalLength'
  | 'ballName'
  | 'ballSize'
  | 'maxRpm'
  | 'click'
  | 'notes',
  string
>
export type SessionProblems = Partial<Record<keyof SessionTexts, string>>

const plain = (text: string) => text.replace(/\u00a0/g, ' ')
const figure = (value: number | null, factor = 1) =>
  value === null ? '' : String(Number((value * factor).toPrecision(10)))

type CameraValues = Omit<Camera, 'name' | 'takenFrom'>
export type CameraTexts = ReturnType<typeof textsOfCamera>

/** What the form's fields say of a camera's values: a session's, or those of a camera that it is filled from. */
export const textsOfCamera = (camera: CameraValues) => ({
  captureFps: figure(camera.captureFps),
  captureUncertainty: figure(camera.relativeUncertainty, 100),
  exposure: camera.exposureSeconds === null ? '' : plain(textOfSeconds(camera.exposureSeconds)),
  readout: figure(camera.readoutSeconds, 1000),
  readoutUncertainty: figure(camera.readoutUncertaintySeconds, 1000),
  focalLength: figure(camera.focalLengthPx),
})

/** The form as it opens on these details. */
export function textsOf(details: SessionDetails): SessionTexts {
  const { camera, ball } = details
  return {
    day: details.day,
    place: details.place,
    hitBy: details.hitBy,
    cameraName: camera.name,
    ...textsOfCamera(camera),
    ballName: ball.name,
    ballSize: plain(textOfMetres(ball.diameterMetres)),
    maxRpm: figure(details.maxRpm),
    click: figure(details.clickStandardUncertaintyPx),
    notes: details.notes,
  }
}

type SessionRead = { notes: SessionProblems } & (
  | { details: SessionDetails; problems: null }
  | { details: null; problems: SessionProblems }
)

/** The details that the texts say, or what is wrong with which field; with what fields were understood as. */
export function detailsOf(texts: SessionTexts, takenFrom: TakenFrom | null = null): SessionRead {
  const read = typed(texts)
  const { notes, problems } = read
  const number = (field: keyof SessionTexts, factor = 1, least: 'zero' | 'above zero' = 'above zero') => {
    const value = read.known(field, one => read.number(one, least))
    return value === null ? null : value / factor
  }
  const exposureSeconds = read.known('exposure', field => read.exposure(field))
  const diameterMetres = read.take(
    'ballSize',
    metresOfText(texts.ballSize),
    'A length as 74 mm or 2.9 in.',
    textOfMetres,
  )
  if (!/^\d{4}-\d{2}-\d{2}$/.test(texts.day)) problems.day = 'The day of filming.'

  const details: SessionDetails = {
    day: texts.day,
    place: texts.place.trim(),
    hitBy: texts.hitBy.trim(),
    camera: {
      name: texts.cameraName.trim(),
      captureFps: number('captureFps'),
      relativeUncertainty: number('captureUncertainty', 100, 'zero'),
      exposureSeconds,
      readoutSeconds: number('readout', 1000, 'zero'),
      readoutUncertaintySeconds: number('readoutUncertainty', 1000, 'zero'),
      focalLengthPx: number('focalLength'),
      ...(takenFrom ? { takenFrom } : {}),
    },
    ball: { name: texts.ballName.trim(), diameterMetres: diameterMetres ?? Number.NaN },
    maxRpm: number('maxRpm'),
    clickStandardUncertaintyPx: number('click'),
    notes: texts.notes,
  }
  return Object.keys(problems).length > 0
    ? { details: null, problems, notes }
    : { details, problems: null, notes }
}

/** A new session: like the one before, as most are, on another day; the very first knows only the ball's size. */
export function freshTexts(before: SessionDetails | undefined, day: string): SessionTexts {
  const unknown = {
    captureFps: null,
    relativeUncertainty: null,
    exposureSeconds: null,
    readoutSeconds: null,
    readoutUncertaintySeconds: null,
    focalLengthPx: null,
  }
  return textsOf({
    place: '',
    hitBy: '',
    camera: { name: '', ...unknown },
    ball: { name: 'Pickleball', diameterMetres: 0.074 },
    maxRpm: null,
    clickStandardUncertaintyPx: null,
    ...before,
    day,
    notes: '',
  })
}
