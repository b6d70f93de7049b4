import { describe, expect, test } from 'vitest'
import { rotationFromVector, turned, turnedBack } from '../../../core/geometry/rotation.ts'
import { angleBetween, dot, length, scaled, unit, type Vector } from '../../../core/geometry/vector.ts'
import { seededRandom } from '../../../core/numerics/seeded-random.ts'
import { degOfRad } from '../../../core/units/angle.ts'
import { angles, likenessAbout } from '../../../core/vision/surface/about-axis.ts'
import { agreementOn } from '../../../core/vision/surface/agreement.ts'
import { discOf } from '../../../core/vision/surface/disc.ts'
import { facing } from '../../../core/vision/surface/pair.ts'
import { sharpened } from '../../../core/vision/surface/refine.ts'
import { search } from '../../../core/vision/surface/search.ts'
import type { Sight } from '../../../core/vision/surface/sights.ts'
import type { Sheets } from '../../../core/vision/surface/textures.ts'
import { spotsOf } from './painted-ball.ts'

/** How dark a place of the ball is: spots of 9°, each a Gaussian hill. */
const strengthOf = (spots: readonly Vector[], place: Vector) =>
  spots.reduce((total, spot) => total + Math.exp((dot(spot, place) - 1) / 0.012), 0)

const sightAt = (timeSeconds: number): Sight => ({
  view: { outline: { xPx: 0, yPx: 0, radiusPx: 40 }, camera: null, toBall: [0, 0, 1], distanceRadii: 1e6 },
  toCamera: rotationFromVector([0, 0, 0]),
  timeSeconds,
  shearSeconds: 0,
  velocityX: 0,
  velocityY: 0,
  rowSeconds: 0,
})

/** A ball's pattern as frames show it: mean 0, variance 1 in each, with even noise of the given spread on top. */
function shown(spots: readonly Vector[], rotation: Vector, times: readonly number[], noise = 0): Sheets {
  const random = seededRandom(5)
  const disc = discOf(10)
  const values = times.map(time => {
    const pose = rotationFromVector(scaled(rotation, time))
    const sheet = new Float32Array(disc.size ** 2)
    disc.node.forEach((at, n) => {
      const place = turnedBack(pose, [disc.x[n]!, disc.y[n]!, disc.z[n]!])
      sheet[at] = strengthOf(spots, place) + noise * (random() - 0.5)
    })
    const mean = disc.node.reduce((total, at) => total + sheet[at]!, 0) / disc.node.length
    const square = disc.node.reduce((total, at) => total + (sheet[at]! - mean) ** 2, 0) / disc.node.length
    for (const at of disc.node) sheet[at] = (sheet[at]! - mean) / Math.sqrt(square)
    return sheet
  })
  return { disc, values }
}

describe('turns about an axis', () => {
  const spots = spotsOf(30, 7)
  const axis = unit([0.5, -0.3, 0.8])
  const times = [0, 0.01, 0.02, 0.03]
  const perFrame = 0.7
  const sheets = shown(spots, scaled(axis, perFrame / 0.01), times)
  const pairs = [
    [0, 1],
    [1, 2],
    [2, 3],
  ] as const
  const { correlation } = likenessAbout(sheets, times.map(sightAt), axis, [pairs])

  test('are most like where the ball has turned that far', () => {
    const best = correlation.indexOf(Math.max(...correlation))
    expect(Math.abs((best * 2 * Math.PI) / angles - perFrame)).toBeLessThan(Math.PI / angles)
    expect(Math.max(...correlation)).toBeGreaterThan(0.85)
  })

  test('are as like as sums over places of the ball make them, turn for turn', () => {
    // The same sums without waves: every place that both frames show, weighted by how squarely each looks at it.
    const count = 6000
    const at = (i: number, [x, y]: Vector) =>
      sheets.values[i]![Math.round((y + 1) * 10) * sheets.disc.size + Math.round((x + 1) * 10)]!
    for (const angle of [0, 8, 20, 40, 64]) {
      const turn = rotationFromVector(scaled(axis, (angle * 2 * Math.PI) / angles))
      let [ab, aa, bb] = [0, 0, 0]
      for (const [i, j] of pairs)
        for (let k = 0; k < count; k++) {
          const z = 1 - (2 * k + 1) / count
          const round = k * Math.PI * (3 - Math.sqrt(5))
          const place: Vector = [
            Math.sqrt(1 - z * z) * Math.cos(round),
            Math.sqrt(1 - z * z) * Math.sin(round),
            z,
          ]
          const later = turned(turn, place)
          if (place[2] > -facing || later[2] > -facing) continue
          const weight = place[2] * later[2]
          ab += weight * at(i, place) * at(j, later)
          aa += weight * at(i, place) ** 2
          bb += weight * at(j, later) ** 2
        }
      // Waves end at the 14th and rows are 15° apart: seen differences are below 0.05.
      expect(Math.abs(correlation[angle]! - ab / Math.sqrt(aa * bb))).toBeLessThan(0.1)
    }
  })
})

describe('the search', () => {
  const fps = 120
  const times = Array.from({ length: 24 }, (_, i) => (i - 11.5) / fps)
  const foundIn = (sheets: Sheets) => {
    const sights = times.map(sightAt)
    const agreement = agreementOn(sheets, sights)
    const roughly = agreementOn(sheets, sights, 3)
    const largest = 2 * Math.PI * 50
    const hills = search(sheets, sights, roughly, largest)
    return sharpened(sheets, sights, { agreement, roughly }, hills, rotation => length(rotation) <= largest)
  }

  // On the top's own hill: a hole is 7° from its middle to its rim, the next one some 40° away.
  const isNear = (found: Vector, rotation: Vector) => {
    expect(Math.abs(length(found) / length(rotation) - 1)).toBeLessThan(0.01)
    expect(degOfRad(angleBetween(found, rotation))).toBeLessThan(4)
  }

  test('finds a ball whose rings of five holes turn by a fifth of a turn in every frame', () => {
    const ring = (tilt: number, count: number, from: number) =>
      Array.from({ length: count }, (_, k): Vector => {
        const turn = from + (2 * Math.PI * k) / count
        return [Math.sin(tilt) * Math.cos(turn), Math.sin(tilt) * Math.sin(turn), Math.cos(tilt)]
      })
    const spots = [
      ...ring(0.52, 5, 0),
      ...ring(1.22, 11, 0.16),
      ...ring(1.92, 11, 0.4),
      ...ring(2.62, 5, 0.3),
    ]
    const lean = rotationFromVector([0.9, 0.4, 0])
    const rotation = scaled(unit([0.1, 0.85, -0.5]), (2 * Math.PI * fps) / 5)
    const [best] = foundIn(
      shown(
        spots.map(spot => turned(lean, spot)),
        rotation,
        times,
        0.6,
      ),
    )
    isNear(best!.rotation, rotation)
  })

  test('finds spots under noise of twice their own spread', () => {
    // Even noise of width 2 has the spread 0.58; 30 hills of 0.012 have √(30·0.012/4) = 0.3.
    const rotation: Vector = [120, -60, 90]
    const found = foundIn(shown(spotsOf(30, 7), rotation, times, 2))
    isNear(found[0]!.rotation, rotation)
  })
})
