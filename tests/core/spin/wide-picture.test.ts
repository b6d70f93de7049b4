import { expect, it } from 'vitest'
import { readMarks } from '../../../core/spin/read-marks.ts'
import { simulateHit } from '../../bench/simulate/hit.ts'

/**
 * Hits that cross most of a wide picture in less than a turn, close to the camera, every click and outline exact but
 * for the tick. Away from the middle a ball looks larger, by 5 % here: an outline that is off by that much at the ends
 * of the hit against its middle would pass for a tilt, and the rate would be 4 to 10 % off.
 */
it.each([11_011_579, 30_004_859, 30_002_896])('hit %i that crosses a wide picture is read true', seed => {
  const hit = simulateHit(seed, 'none')
  const { rpm } = readMarks(hit.document)
  expect(Math.abs(rpm! / hit.truth.rpm - 1)).toBeLessThan(0.02)
})
