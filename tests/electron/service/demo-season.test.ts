import { expect, it } from 'vitest'
import { marksDocumentOf } from '../../../core/marking/marks-document-of.ts'
import { readMarks } from '../../../core/spin/read-marks.ts'
import { demoIn } from '../../../electron/service/demo-file.ts'
import { chanceOf } from '../../../electron/service/demo-season/chance.ts'
import { inventMarks } from '../../../electron/service/demo-season/invented-marks.ts'
import { inventSeason, reference } from '../../../electron/service/demo-season/season-plan.ts'
import { places } from '../../../electron/service/places.ts'
import { clip } from '../../core/marking/sample-records.ts'

const season = inventSeason(chanceOf(2026))

it('an invented season is the same every time', () => {
  expect(inventSeason(chanceOf(2026))).toEqual(season)
})

it('it has some sixty paddles over several sessions, the reference in each, and says that it is invented', () => {
  expect(season.metrics.length).toBeGreaterThan(50)
  expect(season.sessions.length).toBeGreaterThan(5)
  for (const { details, hits } of season.sessions) {
    expect(hits[0]!.of).toMatchObject(reference)
    expect(details.notes).toContain('Invented')
  }
  const names = season.metrics.map(one => one.paddle)
  expect(new Set(names).size).toBe(names.length)
})

it('it ends before the sample clips begin, which so come first in every list', () => {
  const samples = demoIn(places.samples).sessions.map(({ details }) => details.day)
  const days = season.sessions.map(({ details }) => details.day)
  expect(days.toSorted().at(-1)! < samples.toSorted()[0]!).toBe(true)
})

it('its marks give back the spin that was put into them, within the band as often as it says', () => {
  const chance = chanceOf(7)
  const { details } = season.sessions[0]!
  const tries = 24
  let held = 0
  for (let i = 0; i < tries; i++) {
    const rpm = 1300 + 45 * i
    const marks = inventMarks(
      { rpm, frames: 10, fromFrame: 4, frameSeconds: 1 / 240, camera: details },
      chance,
    )
    const frameTimesSeconds = Array.from({ length: 40 }, (_, frame) => frame / 240)
    const { band, flag } = readMarks(
      marksDocumentOf({ hit: marks, clip, frameTimesSeconds, session: details, captureFps: 240 }).marks!,
    )
    expect(flag).not.toBe('ambiguous')
    if (band && band.lowRpm <= rpm && rpm <= band.highRpm) held++
  }
  // Of 24 bands of 95 %, fewer than 20 hold the truth once in some 170 times.
  expect(held).toBeGreaterThanOrEqual(20)
})
