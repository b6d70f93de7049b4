import { expect, it } from 'vitest'
import { rankCandidates } from '../../../core/spin/alias.ts'
import { observationsOf } from '../../../core/spin/observations-of.ts'
import { readMarks } from '../../../core/spin/read-marks.ts'
import { marksOf } from './truth.ts'

const observed = observationsOf(marksOf({ sense: 'clockwise' }))
if (!('observations' in observed)) throw new Error(observed.reason)
const { observations } = observed

it('a rate whose axis may point either way is plausible whatever sense is known', () => {
  const found = [
    { rateRadPerSecond: -100, logLikelihood: 0 },
    { rateRadPerSecond: -200, logLikelihood: 0, senseIsOpen: true },
  ]
  const plausible = rankCandidates(found, observations).map(one => [one.rateRadPerSecond, one.plausible])
  expect(plausible).toContainEqual([-100, false])
  expect(plausible).toContainEqual([-200, true])
})

it.each(['clockwise', 'counter-clockwise'] as const)(
  'an axis in the picture turns neither way: its rate is plausible when the ball is known to turn %s',
  sense => {
    const marks = marksOf({ tiltDeg: 90, rpm: 1500, frames: 40, clickPx: 1, sense })
    const { candidates, flag } = readMarks(marks)
    expect(candidates[0]).toMatchObject({ plausible: true })
    expect(Math.abs(candidates[0]!.rpm - 1500)).toBeLessThan(15)
    expect(flag).not.toBe('ambiguous')
  },
)
