import { describe, expect, it } from 'vitest'
import type { Estimate } from '../../../core/spin/estimate.ts'
import type { Observations } from '../../../core/spin/observations.ts'
import { remarksOn } from '../../../core/spin/remarks.ts'
import { estimateAt, fitWith, observationsWith } from './facts.ts'
import { marksOf } from './truth.ts'

describe('what a person should know of a reading', () => {
  const remarks = (change: Partial<Estimate> = {}, seen: Partial<Observations> = {}, rpm = 2330) => {
    const o = observationsWith(seen)
    return remarksOn(marksOf(), estimateAt(rpm, o, change), o)
  }
  const scattered = (from: 'residuals' | 'stated' | 'assumed') => ({
    scatter: { px: 1.46, from, degreesOfFreedom: 8, redundancy: 0 },
  })
  it('is nothing of a good one, and what its method says', () => {
    expect(remarks()).toEqual([])
    expect(remarks({ remarks: ['The axis faces the camera.'] })).toEqual(['The axis faces the camera.'])
  })
  it('where the click error comes from, if not from the marks; the surface has no clicks', () => {
    expect(remarks(scattered('residuals'))).toEqual([])
    expect(remarks(scattered('stated'))).toEqual([
      'The band rests on the stated click error, 1.5 px: the marks are too few to show their own.',
    ])
    expect(remarks(scattered('assumed'))).toEqual([
      'The band rests on an assumed click error, 1.5 px: the marks are too few to show their own.',
    ])
    expect(remarks({ ...scattered('assumed'), method: 'surface' })).toEqual([])
  })
  it('which frames hold marks that are believed by less than half', () => {
    const weighed = (weights: Record<number, number>) => ({
      sightings: observationsWith().frames.map(({ timeSeconds }, k) =>
        fitWith({ timeSeconds, weight: weights[k] ?? 1 }),
      ),
    })
    expect(remarks(weighed({ 3: 0.5 }))).toEqual([])
    expect(remarks(weighed({ 3: 0.49 }))).toEqual([
      '1 of 24 marks lie too far off to be believed: look at frame 3.',
    ])
    const later = observationsWith().frames.map(frame => ({ ...frame, index: frame.index + 100 }))
    expect(remarks(weighed({ 3: 0, 17: 0.2 }), { frames: later })).toEqual([
      '2 of 24 marks lie too far off to be believed: look at frames 103, 117.',
    ])
    expect(remarks({ ...weighed({ 3: 0 }), method: 'surface' })[0]).toMatch(
      /^1 of 24 pictures of the ball lie/,
    )
  })
  const paced = (pace: number) => ({
    frames: observationsWith().frames.map(frame => ({ ...frame, timeSeconds: frame.index / pace })),
  })
  it('that its times run at another pace than the camera, from half as fast again on, either way', () => {
    expect([remarks({}, paced(359)), remarks({}, paced(161))]).toEqual([[], []])
    expect(remarks({}, paced(361))).toEqual([
      'The frame times run at 361 frames a second, the camera at 240: check which is right.',
    ])
    expect(remarks({}, paced(159))).toEqual([
      'The frame times run at 159 frames a second, the camera at 240: check which is right.',
    ])
  })
  it('frames that were left out do not change the pace', () => {
    const frames = observationsWith().frames.map(frame => ({
      ...frame,
      index: 5 * frame.index,
      timeSeconds: frame.index / 48,
    }))
    expect(remarks({}, { frames })).toEqual([])
  })
  it('what was settled and why, and whether the marks still fit it to a tenth', () => {
    const o = observationsWith()
    const settled = (rpm: number, sense: 'clockwise' | 'counter-clockwise') =>
      remarksOn({ ...marksOf(), settled: { rpm, sense, reason: 'Topspin.' } }, estimateAt(2330, o), o)
    expect(settled(2330, 'clockwise')).toEqual(['Settled by a person on 2330 rpm clockwise: Topspin.'])
    expect(settled(2587, 'clockwise')).toHaveLength(1)
    expect(settled(2590, 'clockwise')).toEqual([
      'Settled by a person on 2590 rpm clockwise: Topspin.',
      'The marks no longer fit the rate that was settled on; this is the nearest that they fit.',
    ])
    expect(settled(2330, 'counter-clockwise')).toHaveLength(2)
  })
  it('that the spin changes, with its size and share, unless the fit let it', () => {
    // Phase ½αt² about the middle of 23/240 s, less its line: α of −600 rad/s² is 57.5 rad/s or 549 rpm over it.
    const sightings = observationsWith().frames.map(({ timeSeconds: t }) =>
      fitWith({ timeSeconds: t, phaseResidualRad: -300 * ((t - 23 / 480) ** 2 - 0.000_83) }),
    )
    const words = remarks({ sightings })
    expect(words).toEqual(['The spin falls by 549 rpm (23.6 %) within the window.'])
    expect(remarks({ sightings, changeRadPerSecond2: -600 })).toEqual([])
    const rising = sightings.map(fit => ({ ...fit, phaseResidualRad: -fit.phaseResidualRad }))
    expect(remarks({ sightings: rising })[0]).toMatch(/^The spin rises by 549 rpm \(23\.6 %\)/)
    // A ball that turns the other way loses what is gained clockwise.
    expect(remarks({ sightings: rising }, {}, -2330)[0]).toMatch(/^The spin falls by 549 rpm/)
  })
})
