import type { Marks } from '../../contract/marks.ts'
import { readMarks } from '../../spin/read-marks.ts'
import { notFound, type RateFound } from './rate-found.ts'

/** Over less than this a belt's or a motor's unevenness is not averaged out: common practice, no source. */
const fewestTurns = 1

/**
 * The capture rate from marks on something that turns at a known rate (33 1/3 and 45 rpm: IEC 60098, from
 * memory), made at the nominal rate: what reads r times too fast was filmed r times slower.
 *
 * @param knownRelative how well the known rate is known, standard uncertainty
 */
export function turntableRate(marks: Marks, knownRpm: number, knownRelative: number): RateFound {
  const { rpm, budget, reasons, flag } = readMarks({
    ...marks,
    plausible: { ...marks.plausible, maxRpm: 2 * knownRpm },
  })
  if (rpm === null || rpm === 0)
    return notFound(reasons[0] ?? 'No rate fits the marks.', reasons[1] ?? 'Mark more frames.')
  const seen = marks.frames.filter(frame => frame.seen.length > 0).map(frame => frame.index)
  const turns = ((Math.max(...seen) - Math.min(...seen)) * rpm) / (60 * marks.capture.fps)
  if (turns < fewestTurns)
    return notFound(
      `The marks cover ${turns.toFixed(2)} turns; a check needs ${fewestTurns} at least.`,
      'Mark frames over several turns: every tenth will do.',
    )
  const own = Math.hypot(
    ...budget.filter(line => line.source !== 'capture rate').map(line => line.standardUncertaintyRpm),
  )
  return {
    measured: true,
    captureFps: (marks.capture.fps * knownRpm) / rpm,
    relativeUncertainty: Math.hypot(own / rpm, knownRelative),
    remarks: [
      `${turns.toFixed(1)} turns read ${rpm.toFixed(2)} rpm at ${marks.capture.fps} fps.`,
      ...(flag === 'clear' ? [] : reasons.slice(0, 1)),
    ],
  }
}
