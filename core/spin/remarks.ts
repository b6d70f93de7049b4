import type { Marks } from '../contract/marks.ts'
import { median } from '../numerics/median.ts'
import { radPerSecondOfRpm } from '../units/rate.ts'
import { signOfSense } from '../units/sense.ts'
import type { Estimate } from './estimate.ts'
import type { Observations } from './observations.ts'
import { certainChangeOf, changeWords } from './rate-change.ts'
import { wordingOf } from './wording.ts'

/** What a person should know of a reading besides its flag, one plain line each. */
export const remarksOn = (marks: Marks, estimate: Estimate, o: Observations): string[] => [
  ...settledWords(marks, estimate),
  ...estimate.remarks,
  ...changeRemark(estimate, o),
  ...doubtedWords(estimate, o),
  ...scatterWords(estimate),
  ...clockWords(o),
]

/** Further than this share from every candidate, what was settled on no longer fits the marks. */
const settledWithin = 0.1

function settledWords({ settled }: Marks, { rateRadPerSecond }: Estimate): string[] {
  if (!settled) return []
  const chosen = radPerSecondOfRpm(settled.rpm) * signOfSense(settled.sense)
  const gone = Math.abs(rateRadPerSecond - chosen) > settledWithin * Math.abs(chosen)
  return [
    `Settled by a person on ${settled.rpm.toFixed(0)} rpm ${settled.sense}: ${settled.reason}`,
    ...(gone
      ? ['The marks no longer fit the rate that was settled on; this is the nearest that they fit.']
      : []),
  ]
}

/** Shown, too, as a warning of the document. */
export function changeRemark(estimate: Estimate, o: Observations): string[] {
  const change = estimate.changeRadPerSecond2 === undefined ? certainChangeOf(estimate, o) : null
  return change ? [changeWords(change, estimate)] : []
}

function doubtedWords({ sightings, method }: Estimate, o: Observations): string[] {
  const doubted = sightings.flatMap((fit, k) =>
    fit.weight < 0.5 ? [o.frames[o.sightings[k]!.frame]!.index] : [],
  )
  if (doubted.length === 0) return []
  const where = `frame${doubted.length > 1 ? 's' : ''} ${doubted.join(', ')}`
  return [
    `${doubted.length} of ${sightings.length} ${wordingOf(method).seen} lie too far off to be believed: look at ${where}.`,
  ]
}

function scatterWords({ scatter, method }: Estimate): string[] {
  if (scatter.from === 'residuals' || method === 'surface') return []
  const px = scatter.px.toFixed(1)
  return scatter.from === 'stated'
    ? [`The band rests on the stated click error, ${px} px: the marks are too few to show their own.`]
    : [`The band rests on an assumed click error, ${px} px: the marks are too few to show their own.`]
}

/** Frame times that run at quite another pace than the capture rate: one of the two is wrong. */
function clockWords({ frames, capture }: Observations): string[] {
  const paces = frames
    .slice(1)
    .map((frame, i) => (frame.index - frames[i]!.index) / (frame.timeSeconds - frames[i]!.timeSeconds))
  const pace = median(paces)
  if (!(pace / capture.fps > 1.5 || pace / capture.fps < 1 / 1.5)) return []
  return [
    `The frame times run at ${pace.toFixed(0)} frames a second, the camera at ${capture.fps}: check which is right.`,
  ]
}
