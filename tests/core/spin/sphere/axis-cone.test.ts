import { expect, it } from 'vitest'
import { axisCone } from '../../../../core/spin/sphere/axis-cone.ts'
import { chanceOf } from '../../../bench/simulate/random.ts'

it.each([
  [1, 1],
  [1, 0.3],
  [1, 0.05],
  [1, 0],
])('the cone for variances %f and %f holds 95 of 100 axes', (a, b) => {
  const { normal } = chanceOf(9)
  const cone = axisCone([a, b], Number.POSITIVE_INFINITY)
  let held = 0
  const axes = 20000
  for (let i = 0; i < axes; i++)
    held += Math.hypot(normal(Math.sqrt(a)), normal(Math.sqrt(b))) <= cone ? 1 : 0
  expect(held / axes).toBeGreaterThan(0.94)
  expect(held / axes).toBeLessThan(0.96)
})
