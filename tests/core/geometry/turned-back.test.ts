import { describe, expect, test } from 'vitest'
import { ballView, placeAt } from '../../../core/geometry/ball-view.ts'
import { turnedBackPlaces } from '../../../core/geometry/turned-back.ts'

const side = 21
const outline = { xPx: 100, yPx: 80, radiusPx: 40 }
const far = ballView(outline, null)
const at = (places: Float32Array, column: number, row: number) => {
  const i = 2 * (row * side + column)
  return [places[i]!, places[i + 1]!]
}
const middle = (side - 1) / 2
/** Half-way from the middle to the edge of the picture: pixel number 15 has its middle at 15.5/21, x = 0.476. */
const halfWay = 15
const reach = 40 * ((2 * 15.5) / side - 1)

describe('a ball turned back', () => {
  test('that did not turn lies where it lies', () => {
    const still = { view: far, timeSeconds: 0 }
    const places = turnedBackPlaces(still, { ...still, timeSeconds: 1 }, [0, 0, 0], side)
    expect(at(places, middle, middle)).toEqual([100, 80])
    expect(at(places, halfWay, middle)[0]).toBeCloseTo(100 + reach, 4)
    expect(at(places, 0, 0)).toEqual([Number.NaN, Number.NaN])
  })

  test('by a quarter turn clockwise is looked for a quarter turn on: what lay right lies below', () => {
    // Clockwise on the screen is a rotation vector with z > 0 (formats), y grows downwards.
    const moved = ballView({ xPx: 300, yPx: 90, radiusPx: 80 }, null)
    const places = turnedBackPlaces(
      { view: far, timeSeconds: 0 },
      { view: moved, timeSeconds: 0.01 },
      [0, 0, Math.PI / 2 / 0.01],
      side,
    )
    const [x, y] = at(places, halfWay, middle)
    expect(x).toBeCloseTo(300, 4)
    expect(y).toBeCloseTo(90 + 2 * reach, 4)
  })

  test('by half a turn about an upright axis shows nothing: its near side is behind', () => {
    const places = turnedBackPlaces(
      { view: far, timeSeconds: 0 },
      { view: far, timeSeconds: 1 },
      [0, Math.PI, 0],
      side,
    )
    expect(places.every(Number.isNaN)).toBe(true)
  })

  test('is looked for where a near camera sees the turned place, rows exposed one after the other', () => {
    const camera = { focalPx: 500, xPx: 320, yPx: 240 }
    const [first, later] = [ballView(outline, camera), ballView({ xPx: 420, yPx: 300, radiusPx: 44 }, camera)]
    const rowSeconds = 1e-5
    const rate = 150
    const places = turnedBackPlaces(
      { view: first, timeSeconds: 0 },
      { view: later, timeSeconds: 0.002 },
      [0, 0, rate],
      side,
      rowSeconds,
    )
    const [x, y] = at(places, halfWay, middle)
    // Found there, the place has turned about z for the time between the rows' own instants, and about no more.
    const from = placeAt(first, 100 + reach, 80)
    const to = placeAt(later, x!, y!)
    const seconds = 0.002 + rowSeconds * (y! - 80)
    const turn = Math.atan2(from[0] * to[1] - from[1] * to[0], from[0] * to[0] + from[1] * to[1])
    // To a fifth of a pixel; leaving out the rows within the ball would miss by 0.05.
    expect(turn).toBeCloseTo(rate * seconds, 2)
    expect(to[2]).toBeCloseTo(from[2], 3)
  })
})
