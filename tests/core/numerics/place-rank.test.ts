import fc from 'fast-check'
import { expect, test } from 'vitest'
import { placeRank } from '../../../core/numerics/place-rank.ts'

test('gives what sorting gives, with the smaller ones before it and the larger behind', () => {
  // Few different values, so that many are equal. Reference: the runtime's own sort.
  const values = fc.array(fc.oneof(fc.integer({ min: -3, max: 3 }), fc.float({ noNaN: true })), {
    minLength: 1,
  })
  fc.assert(
    fc.property(values, fc.nat(), (all, at) => {
      const rank = at % all.length
      const sorted = Float64Array.from(all).sort()
      const placed = Float64Array.from(all)
      expect(placeRank(placed, rank)).toBe(sorted[rank])
      expect(placed.subarray(0, rank).every(value => value <= sorted[rank]!)).toBe(true)
      expect(placed.subarray(rank).every(value => value >= sorted[rank]!)).toBe(true)
      expect(placed.sort()).toEqual(sorted)
    }),
  )
})

test('places a second rank behind one that is placed', () => {
  const values = Float64Array.of(9, 4, 7, 1, 8, 2, 6)
  placeRank(values, 2)
  expect(placeRank(values, 5, 2)).toBe(8)
  expect(values.subarray(2, 5).toSorted()).toEqual(Float64Array.of(4, 6, 7))
})
