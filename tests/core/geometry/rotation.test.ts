import fc from 'fast-check'
import { describe, expect, it } from 'vitest'
import { rotationFromVector, turned, turnedBack } from '../../../core/geometry/rotation.ts'
import { rotationDerivative } from '../../../core/geometry/rotation-derivative.ts'
import {
  angleBetween,
  cross,
  dot,
  length,
  sum,
  tangents,
  unit,
  type Vector,
} from '../../../core/geometry/vector.ts'

const vector = fc.tuple(
  ...[1, 2, 3].map(() => fc.double({ min: -20, max: 20, noNaN: true })),
) as fc.Arbitrary<[number, number, number]>
const near = (a: Vector, b: Vector, digits = 9) =>
  a.forEach((x, i) => {
    expect(x).toBeCloseTo(b[i]!, digits)
  })

describe('a rotation from a vector', () => {
  it('turns x to y by a quarter about z: clockwise on a screen with y down', () => {
    near(turned(rotationFromVector([0, 0, Math.PI / 2]), [1, 0, 0]), [0, 1, 0])
  })

  it('keeps lengths and angles, and is undone backwards', () => {
    fc.assert(
      fc.property(vector, vector, vector, (w, a, b) => {
        const r = rotationFromVector(w)
        expect(dot(turned(r, a), turned(r, b))).toBeCloseTo(dot(a, b), 6)
        near(turnedBack(r, turned(r, a)), a, 6)
      }),
    )
  })

  it('leaves its own axis where it is', () => {
    fc.assert(fc.property(vector, w => near(turned(rotationFromVector(w), w), w, 6)))
  })

  it('is smooth through no turn at all', () => {
    near(turned(rotationFromVector([1e-9, 0, 0]), [0, 1, 0]), [0, 1, 1e-9], 12)
  })
})

describe('the derivative of a rotation', () => {
  it('agrees with a numeric slope', () => {
    fc.assert(
      fc.property(vector, vector, vector, (w, p, along) => {
        fc.pre(length(along) > 0.1 && length(p) > 0.1)
        const [e, place] = [unit(along), unit(p)]
        const step = 1e-6
        const at = (k: number) => turned(rotationFromVector(sum(w, [k * e[0], k * e[1], k * e[2]])), place)
        const [plus, minus] = [at(step), at(-step)]
        const slope = plus.map((x, i) => (x - minus[i]!) / (2 * step)) as unknown as Vector
        near(cross(turned(rotationDerivative(w), e), at(0)), slope, 6)
      }),
    )
  })
})

describe('vectors', () => {
  it('have two tangents square to them and to each other, right-handed', () => {
    fc.assert(
      fc.property(vector, v => {
        fc.pre(length(v) > 1e-3)
        const [e1, e2] = tangents(v)
        near(cross(e1, e2), unit(v), 9)
        expect(length(e1)).toBeCloseTo(1, 9)
      }),
    )
  })

  it('tell small angles that an arc cosine would lose', () => {
    expect(angleBetween([1, 0, 0], [1, 1e-10, 0])).toBeCloseTo(1e-10, 15)
  })
})
