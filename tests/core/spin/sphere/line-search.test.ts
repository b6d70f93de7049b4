import { describe, expect, it } from 'vitest'
import { rotationFromVector, turned, turnedBack } from '../../../../core/geometry/rotation.ts'
import { dot, scaled, unit, type Vector } from '../../../../core/geometry/vector.ts'
import { symmetricEigen } from '../../../../core/numerics/symmetric-eigen.ts'
import { Motion } from '../../../../core/spin/sphere/motion.ts'
import {
  type Agreement,
  addProduct,
  bearingPlane,
  bestRun,
  leastMiss,
} from '../../../../core/spin/sphere/run-of-line.ts'
import { sightsOf } from '../../../../core/spin/sphere/sights.ts'
import { TurnedProducts } from '../../../../core/spin/sphere/turned-products.ts'
import { turningTable } from '../../../../core/spin/sphere/turning.ts'
import { chanceOf } from '../../../bench/simulate/random.ts'
import { observationsWith } from '../facts.ts'

const { between } = chanceOf(17)
const anyVector = (): Vector => [between(-1, 1), between(-1, 1), between(-1, 1)]
const none = (): Agreement => ({ across: new Float64Array(6), ahead: new Float64Array(6) })

it('a table of turning holds cos and sin of every step, rate after rate', () => {
  const steps = Float64Array.of(0.3, -0.7, 0)
  const { cos, sin } = turningTable(steps, 50)
  expect(cos).toHaveLength(150)
  for (let k = 0; k < 50; k++)
    steps.forEach((step, i) => {
      expect(cos[3 * k + i]).toBeCloseTo(Math.cos(k * step), 12)
      expect(sin[3 * k + i]).toBeCloseTo(Math.sin(k * step), 12)
    })
})

describe('products of vectors that are turned back', () => {
  const planes = Array.from({ length: 5 }, () => ({ across: anyVector(), ahead: anyVector() }))
  const stepRad = Float64Array.from(planes, () => between(-0.5, 0.5))
  const axis = unit(anyVector())
  it('sum up to what turning each back and multiplying gives, for both senses', () => {
    const products = new TurnedProducts(planes)
    // A second axis leaves nothing of the first behind.
    products.about(unit(anyVector()))
    products.about(axis)
    const [forwards, backwards] = [none(), none()]
    for (const k of [0, 1, 7]) {
      products.sumUp(turningTable(stepRad, 8), k, forwards, backwards)
      for (const [sense, sums] of [
        [1, forwards],
        [-1, backwards],
      ] as const) {
        const direct = none()
        planes.forEach(({ across, ahead }, i) => {
          const r = rotationFromVector(scaled(axis, sense * k * stepRad[i]!))
          addProduct(direct.across, ...turnedBack(r, across))
          addProduct(direct.ahead, ...turnedBack(r, ahead))
        })
        for (const part of ['across', 'ahead'] as const)
          sums[part].forEach((value, i) => {
            expect(value).toBeCloseTo(direct[part][i]!, 12)
          })
      }
    }
  })
})

/** The least ratio vᵀ(across + s)v / vᵀ(across + ahead + s)v, s = 0.02 a bearing, by the general eigenvalues. */
function ratioByEigen({ across, ahead }: Agreement, count: number): number {
  const full = (m: Float64Array, soft: number) =>
    [m[0]! + soft, m[1]!, m[2]!, m[1]!, m[3]! + soft, m[4]!, m[2]!, m[4]!, m[5]! + soft] as number[]
  const soft = 0.02 * count
  const whole = symmetricEigen(
    full(
      across.map((v, i) => v + ahead[i]!),
      soft,
    ),
    3,
  )
  // W^(−1/2)·A·W^(−1/2) by the eigenvectors of the whole.
  const a = full(across, soft)
  const rows = whole.vectors.map((v, i) => v.map(x => x / Math.sqrt(whole.values[i]!)))
  const inner = rows.flatMap(left =>
    rows.map(right =>
      left.reduce((sum, x, i) => sum + x * right.reduce((s, y, j) => s + a[3 * i + j]! * y, 0), 0),
    ),
  )
  return symmetricEigen(inner, 3).values[0]!
}

describe('how well bearings agree', () => {
  it('is the smallest eigenvalue of across against the whole', () => {
    for (let n = 0; n < 20; n++) {
      const sums = none()
      for (let k = 0; k < 6; k++) {
        addProduct(sums.across, ...anyVector())
        addProduct(sums.ahead, ...anyVector())
      }
      expect(leastMiss(sums, 6)).toBeCloseTo(ratioByEigen(sums, 6), 10)
    }
  })
  it('of sums that are alike in every direction is their share', () => {
    const sums = none()
    const along: Vector[] = [
      [1, 0, 0],
      [0, 1, 0],
      [0, 0, 1],
    ]
    for (const v of along) {
      addProduct(sums.across, ...v)
      addProduct(sums.ahead, ...scaled(v, 2))
    }
    // (1 + 0.06)/(1 + 4 + 0.06)
    expect(leastMiss(sums, 3)).toBeCloseTo(1.06 / 5.06, 12)
  })
})

/** A vector of the body that turns about an axis, seen from far away as a bearing in each of 24 frames. */
const rotation: Vector = [40, -90, 150]
const body = unit([0.5, 0.2, -0.6])
const o = observationsWith()
const middle = 23 / 480
const pictured = o.frames.map(({ timeSeconds }) =>
  turned(rotationFromVector(scaled(rotation, timeSeconds - middle)), body),
)
function seen(symmetryOrder = 1) {
  return sightsOf({
    ...o,
    frames: o.frames.map(frame => ({ ...frame, outline: { xPx: 480, yPx: 270, radiusPx: 36 } })),
    marks: [{ id: 'logo', symmetryOrder }],
    capture: { ...o.capture, focalLengthPx: 1e7 },
    sightings: pictured.map((u, frame) => ({
      kind: 'direction',
      frame,
      mark: 0,
      bearingRad: Math.atan2(u[1], u[0]),
    })),
  })
}

describe('a line’s run', () => {
  it('lies in the plane of its bearing, on the side that it points to', () => {
    seen().directions.forEach((sight, i) => {
      const { across, ahead } = bearingPlane(sight)
      expect(dot(across, pictured[i]!)).toBeCloseTo(0, 5)
      expect(dot(ahead, pictured[i]!)).toBeGreaterThan(0)
    })
  })
  it('off the middle of the picture is seen from there', () => {
    // Seen along (x, y, z) a vector shows at right angles to it: both planes hold the line of sight.
    const [sight] = seen().directions
    const toBall: Vector = unit([0.3, -0.2, 1])
    const { across, ahead } = bearingPlane({ ...sight!, view: { ...sight!.view!, toBall } })
    expect(dot(across, toBall)).toBeCloseTo(0, 12)
    expect(dot(ahead, toBall)).toBeCloseTo(0, 12)
    expect(bearingPlane({ ...sight!, view: null }).ahead[2]).toBeCloseTo(0, 12)
  })
  it.each([1, 2, 3])(
    'of order %i comes back from its bearings under the true rotation, with nothing left',
    order => {
      const { run, score } = bestRun(seen(order), 0, rotation)
      // Softened, so that a vector at the camera agrees with nothing: near, not exact.
      expect(Math.abs(dot(run, body))).toBeGreaterThan(0.999)
      expect(score).toBeLessThan(0.02)
      if (order === 1) expect(dot(run, body)).toBeGreaterThan(0)
      const wrong = bestRun(seen(order), 0, scaled(rotation, 1.4))
      expect(wrong.score).toBeGreaterThan(10 * Math.max(score, 0.05))
    },
  )
})

describe('where the model has a mark', () => {
  const places: Vector[] = [unit([0.2, 0.4, -0.8]), body]
  const motion = new Motion(places)
  it('is its place turned by rotation, time and repeat; its speed is ω × u', () => {
    motion.set(Float64Array.of(...rotation, 0, 0, 0, 0))
    expect(motion.rate).toBeCloseTo(Math.hypot(...rotation), 12)
    for (const [mark, t, repeat] of [
      [0, 0.013, 0],
      [1, -0.04, 2.1],
    ] as const) {
      motion.move(mark, t, repeat, false)
      const turn = scaled(unit(rotation), motion.rate * t + repeat)
      const expected = turned(rotationFromVector(turn), places[mark]!)
      const [x, y, z] = rotation
      const speed = [
        y * expected[2] - z * expected[1],
        z * expected[0] - x * expected[2],
        x * expected[1] - y * expected[0],
      ]
      expected.forEach((each, i) => {
        expect(motion.u[i]).toBeCloseTo(each, 12)
        expect(motion.speed[i]).toBeCloseTo(speed[i]!, 9)
      })
    }
  })
  it('steps along two tangents take it the arc tangent of their length away', () => {
    motion.set(Float64Array.of(...rotation, 0.3, -0.4, 0, 0))
    const [stepped, still] = motion.placesAtZero()
    expect(Math.hypot(...stepped!)).toBeCloseTo(1, 12)
    expect(Math.acos(dot(stepped!, places[0]!))).toBeCloseTo(Math.atan(0.5), 9)
    expect(dot(still!, places[1]!)).toBeCloseTo(1, 12)
  })
  it('of a ball that stands still is where it was', () => {
    motion.set(new Float64Array(7))
    motion.move(0, 3, 0, true)
    expect([...motion.u]).toEqual(places[0]!.map(each => expect.closeTo(each, 12)))
    expect([motion.rate, ...motion.axis]).toEqual([0, 0, 0, 1])
    expect(motion.slopes.every(Number.isFinite)).toBe(true)
  })
})
