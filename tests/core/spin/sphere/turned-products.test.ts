import { expect, it } from 'vitest'
import { rotationFromVector, turnedBack } from '../../../../core/geometry/rotation.ts'
import { scaled, unit, type Vector } from '../../../../core/geometry/vector.ts'
import { type Agreement, addProduct } from '../../../../core/spin/sphere/run-of-line.ts'
import { TurnedProducts } from '../../../../core/spin/sphere/turned-products.ts'
import { turningTable } from '../../../../core/spin/sphere/turning.ts'

const nothing = (): Agreement => ({ across: new Float64Array(6), ahead: new Float64Array(6) })

/** Expected: each vector turned back by its own rotation matrix, its products added one by one. */
it('sums of products at a rate and its opposite are those of vectors turned back one by one', () => {
  const axis = unit([0.3, -0.5, 0.8])
  const seen = [-0.03, 0.011, 0.07, 0.2].map((timeSeconds, i) => ({
    timeSeconds,
    plane: {
      across: [Math.sin(i), Math.cos(3 * i), 0.2] as Vector,
      ahead: [0.4, Math.cos(2 * i), -0.1 * i] as Vector,
    },
  }))
  const step = 7
  const products = new TurnedProducts(seen.map(one => one.plane))
  products.about([1, 0, 0])
  products.about(axis)
  const table = turningTable(
    Float64Array.from(seen, one => step * one.timeSeconds),
    12,
  )
  for (const k of [0, 1, 11]) {
    const [forwards, backwards] = [nothing(), nothing()]
    products.sumUp(table, k, forwards, backwards)
    for (const [sense, sums] of [
      [1, forwards],
      [-1, backwards],
    ] as const) {
      const expected = nothing()
      for (const { timeSeconds, plane } of seen) {
        const r = rotationFromVector(scaled(axis, sense * k * step * timeSeconds))
        addProduct(expected.across, ...turnedBack(r, plane.across))
        addProduct(expected.ahead, ...turnedBack(r, plane.ahead))
      }
      for (const of of ['across', 'ahead'] as const)
        expect([...sums[of]]).toEqual([...expected[of]].map(x => expect.closeTo(x, 10)))
    }
  }
})
