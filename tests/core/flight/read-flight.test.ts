import { expect, test } from 'vitest'
import { readFlight } from '../../../core/flight/read-flight.ts'
import { flightOf, spotsOf } from '../vision/painted-ball.ts'

test('lists each rate that fits with an axis of its own', () => {
  // A turn short of 360° a frame is the same turn the other way: 3000 rpm at 120 fps, and 7200 − 3000 about
  // the opposite direction (method.md, fitting the bearing, 3).
  const rpm = 3000
  const frames = flightOf([0, 0, (rpm * Math.PI) / 30], 12, 120, spotsOf(30, 7))
  const { reading } = readFlight(frames, {
    capture: { fps: 120, exposureSeconds: 1 / 4000, readoutSeconds: 0, focalLengthPx: 1e6 },
    picture: { widthPx: 320, heightPx: 140 },
    ball: { diameterMetres: 0.074 },
    plausible: { maxRpm: 5000 },
  })
  const near = (wanted: number) => reading.candidates.find(one => Math.abs(one.rpm - wanted) < 20)
  expect(near(3000)?.axis?.z).toBeGreaterThan(0.999)
  expect(near(4200)?.axis?.z).toBeLessThan(-0.999)
  expect(reading.flag).toBe('ambiguous')
})
