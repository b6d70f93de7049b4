import { describe, expect, test } from 'vitest'
import { rotationFromVector, turned, turnedBack } from '../../../core/geometry/rotation.ts'
import { angleBetween, length, scaled, sum, unit, type Vector } from '../../../core/geometry/vector.ts'
import { seededRandom } from '../../../core/numerics/seeded-random.ts'
import { assumed } from '../../../core/spin/assumptions.ts'
import { degOfRad } from '../../../core/units/angle.ts'
import { radPerSecondOfRpm } from '../../../core/units/rate.ts'
import { discOf } from '../../../core/vision/surface/disc.ts'
import { opennessOf } from '../../../core/vision/surface/openness.ts'
import { regressed } from '../../../core/vision/surface/regress.ts'
import { sightsOf } from '../../../core/vision/surface/sights.ts'
import { type Lens, solved } from '../../../core/vision/surface/solve.ts'
import type { SurfaceInput } from '../../../core/vision/surface/surface-input.ts'
import type { Sheets } from '../../../core/vision/surface/textures.ts'
import { spotsOf } from './painted-ball.ts'

const picture = { widthPx: 1280, heightPx: 720 }
const half = picture.widthPx / 2
const fps = 240

/** A ball that flies from one side of a wide picture to the other, 40 px in radius; no pixels. */
function crossing(frames: number): SurfaceInput {
  const luma = { xPx: 0, yPx: 0, widthPx: 2, heightPx: 2, data: new Uint8Array(4) }
  return {
    frames: Array.from({ length: frames }, (_, i) => ({
      index: i,
      timeSeconds: i / fps,
      outline: { xPx: 60 + (1160 * i) / (frames - 1), yPx: 250 + 0.5 * (i - frames / 2) ** 2, radiusPx: 40 },
      luma,
    })),
    picture,
    fps,
    exposureSeconds: 0,
    readoutSeconds: 0,
    focalLengthPx: null,
    maxRateRadPerSecond: 500,
  }
}

/** What a camera of a given focal length sees of a turning ball, as patterns of variance 1 with noise. */
function seenBy(input: SurfaceInput, focalPx: number, rotation: Vector): Sheets {
  const random = seededRandom(3)
  const disc = discOf(20)
  const spots = spotsOf(30, 7)
  const values = sightsOf(input, focalPx, 0).map(({ toCamera, timeSeconds }) => {
    const pose = rotationFromVector(scaled(rotation, timeSeconds))
    const sheet = new Float32Array(disc.size ** 2)
    disc.node.forEach((at, n) => {
      const own = turnedBack(pose, turned(toCamera, [disc.x[n]!, disc.y[n]!, disc.z[n]!]))
      const strength = spots.reduce(
        (total, [x, y, z]) => total + Math.exp((own[0] * x + own[1] * y + own[2] * z - 1) / 0.012),
        0,
      )
      sheet[at] = (strength - 0.18) / 0.3 + (random() - 0.5)
    })
    return sheet
  })
  return { disc, values }
}

const lens: Lens = {
  focalPx: half / assumed.viewTangent,
  readoutSeconds: 0,
  flatnessUncertainty: assumed.viewTangentUncertainty / half,
}

describe('a focal length that nobody knows', () => {
  test.each([
    [1000, 'a wide view'],
    [2400, 'a narrow one'],
  ])('of %d px, %s, is found with the rotation of a ball that crosses the picture', focalPx => {
    // The axis lies across the line of sight: a turn of the view adds to the rate, whatever the focal length.
    const input = crossing(30)
    const rotation = scaled(unit([0.2, 0.9, 0.4]), radPerSecondOfRpm(1600))
    const solution = solved(input, seenBy(input, focalPx, rotation), rotation, lens, { stride: 2 })!
    expect(Math.abs(lens.focalPx / focalPx - 1)).toBeGreaterThan(0.3)
    expect(Math.abs(solution.focalPx / focalPx - 1)).toBeLessThan(0.04)
    expect(Math.abs(length(solution.rotation) / length(rotation) - 1)).toBeLessThan(0.001)
    expect(degOfRad(angleBetween(solution.rotation, rotation))).toBeLessThan(0.3)
  })

  test('is drawn to what it was taken for where a wave of the pattern asks for another', () => {
    // 400 rpm in 14 frames are 130°. Frames that stand off by 2°, half a wave of the pattern's usual 3.4°.
    const input = crossing(14)
    const flatness = 1 / lens.focalPx
    const places = input.frames.map(({ outline }) => [outline.xPx - half, outline.yPx - 360] as const)
    const sights = sightsOf(input, lens.focalPx, 0)
    const rotation = scaled(unit([0.2, 0.9, 0.4]), radPerSecondOfRpm(400))
    const waves = (phase: number): Vector[] =>
      sights.map(({ timeSeconds }) => [
        0,
        0.035 * Math.sin(length(rotation) * timeSeconds + phase),
        0.035 * Math.cos(length(rotation) * timeSeconds + phase),
      ])
    const errorsWith = (uncertainty: number) =>
      [0, 1, 2, 3, 4, 5].map(phase => {
        const prior = { offBy: 0, uncertainty }
        const { change, flatnessChange } = regressed(waves(phase), sights, rotation, flatness, places, prior)!
        return { rate: length(sum(rotation, change)) / length(rotation) - 1, flatness: flatnessChange }
      })
    const rms = (of: number[]) => Math.sqrt(of.reduce((total, one) => total + one * one, 0) / of.length)
    const drawn = errorsWith(lens.flatnessUncertainty!)
    const free = errorsWith(1)
    expect(rms(drawn.map(one => one.flatness))).toBeLessThan(0.6 * rms(free.map(one => one.flatness)))
    expect(rms(drawn.map(one => one.rate))).toBeLessThan(0.6 * rms(free.map(one => one.rate)))
  })
})

test('a spin that decays is no scatter, and the rate is that in the middle of the flight', () => {
  // Turned to −ω·d·t²/2 (the integral of a rate ω·(1 − d·t)): 29 frames over ± 14/240 s at 2400 rpm that lose 0.2 a
  // second stand 4.9° behind at both ends, beside an even scatter of 0.3°.
  const random = seededRandom(9)
  const input = crossing(29)
  const sights = sightsOf(input, lens.focalPx, 0)
  const rotation: Vector = [0, 0, radPerSecondOfRpm(2400)]
  const places = input.frames.map(({ outline }) => [outline.xPx - half, outline.yPx - 360] as const)
  const noise = () => 0.018 * (random() - 0.5)
  const turns = sights.map(({ toCamera, timeSeconds: t }): Vector => {
    const [x, y, z] = turnedBack(toCamera, scaled(rotation, -0.1 * t * t))
    return [x + noise(), y + noise(), z + noise()]
  })
  const { change, rateUncertainty, scatterRad } = regressed(
    turns,
    sights,
    rotation,
    1 / lens.focalPx,
    places,
    null,
  )!
  expect(Math.abs(change[2])).toBeLessThan(3 * rateUncertainty)
  expect(Math.abs(change[2]) / length(rotation)).toBeLessThan(0.001)
  // Even noise of width 0.018 has the spread 0.018/√12.
  expect(scatterRad).toBeLessThan(1.5 * (0.018 / Math.sqrt(12)))
})

test('the openness of a slope is what scatter leaves of it, and what a wave moves it by', () => {
  // Of y = a + b·t with unit scatter the slope's variance is 1/Σ(t − mean)² (any textbook on regression), and an
  // error e moves it by Σ(t − mean)·e/Σ(t − mean)². Here t = −2…2: Σt² = 10; e = t³/10 has Σt·e = 34/10.
  const t = [-2, -1, 0, 1, 2]
  const design = t.flatMap(at => [1, at])
  const wave = t.map(at => at ** 3 / 10)
  const open = opennessOf(design, [0, 1, 0, 1, 0], [wave], 1)!
  expect(open.ofScatter).toBeCloseTo(0.1, 12)
  expect(open.variance).toBeCloseTo(0.1 + 0.34 ** 2, 12)
})
