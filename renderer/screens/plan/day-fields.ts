import { create } from 'zustand'
import type { CameraProfile } from '../../../core/contract/cameras.ts'
import type { PlanSetUp } from '../../../core/contract/plan.ts'
import type { ClipHolds, TestDay } from '../../../core/contract/test-day.ts'
import type { SessionDetails } from '../../../core/contract/workspace.ts'
import { takenFrom } from '../../../core/planning/taken-from.ts'

export type DayTexts = {
  paddles: string
  reference: string
  hitsEach: string
  blocks: string
  ballChange: string
  seed: string
  clipHolds: ClipHolds
}
/** What was typed stays while other screens are looked at. */
export const useDayTexts = create<DayTexts>(() => ({
  paddles: '',
  reference: '',
  hitsEach: '12',
  blocks: '3',
  ballChange: '40',
  seed: '1',
  clipHolds: 'hit',
}))
export type DayRead = { day: TestDay | null; problems: Partial<Record<keyof DayTexts, string>> }

/** Reads the day's form: paddles one a line, an empty ball change for the same ball all day. */
export function dayRead(texts: DayTexts): DayRead {
  const problems: DayRead['problems'] = {}
  const whole = (field: Exclude<keyof DayTexts, 'clipHolds'>, most: number, least = 1) => {
    const value = Number(texts[field].trim() || Number.NaN)
    if (Number.isInteger(value) && value >= least && value <= most) return value
    problems[field] = `A whole number from ${least} to ${most}.`
    return Number.NaN
  }
  const paddles = texts.paddles
    .split('\n')
    .map(line => line.trim())
    .filter(line => line !== '')
  const reference = texts.reference.trim()
  if (paddles.length === 0) problems.paddles = 'One paddle a line.'
  else if (new Set(paddles).size < paddles.length) problems.paddles = 'A paddle stands here twice.'
  if (reference === '') problems.reference = 'One that stays the same all day.'
  else if (paddles.includes(reference)) problems.reference = 'It must not be one of those under test.'
  const day: TestDay = {
    paddles,
    reference,
    hitsEach: whole('hitsEach', 500),
    blocks: whole('blocks', 50),
    ballChangeAfter: texts.ballChange.trim() === '' ? null : whole('ballChange', 10_000),
    seed: whole('seed', 1e9, 0),
  }
  if (day.blocks > day.hitsEach) problems.blocks = 'No more blocks than hits of a paddle.'
  return { day: Object.keys(problems).length > 0 ? null : day, problems }
}

type DayFacts = {
  setUp: PlanSetUp
  ball: string
  camera: CameraProfile | null
  before: SessionDetails | undefined
  today: string
}

/**
 * The day's session as far as the plan knows it. Rate and exposure are what the camera will be set to; readout
 * and focal length were assumed for the plan, and count only where a camera was measured.
 */
export function sessionOfDay({ setUp, ball, camera, before, today }: DayFacts): SessionDetails {
  const taken = camera && takenFrom(camera)
  const { captureFps, exposureSeconds, ballDiameterMetres } = setUp
  const unknown = {
    relativeUncertainty: null,
    readoutSeconds: null,
    readoutUncertaintySeconds: null,
    focalLengthPx: null,
  }
  return {
    day: today,
    place: before?.place ?? '',
    hitBy: before?.hitBy ?? '',
    camera: taken
      ? { ...taken, exposureSeconds, takenFrom: taken }
      : { name: '', captureFps, exposureSeconds, ...unknown },
    ball: { name: ball, diameterMetres: ballDiameterMetres },
    maxRpm: before?.maxRpm ?? null,
    clickStandardUncertaintyPx: before?.clickStandardUncertaintyPx ?? null,
    notes: '',
  }
}
