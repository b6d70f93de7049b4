import { describe, expect, it } from 'vitest'
import { almostSameNames } from '../../../core/ratings/almost-same-names.ts'

const almost = almostSameNames(['Heron 14', 'Heron 16', 'Jorrow R12', 'Quillet T14', 'Ospreywing'])

// Common practice, no source: a model's number is its core's thickness, so another number is another paddle.
describe('a name is almost another', () => {
  it.each([
    ['heron-14', ['Heron 14']],
    ['HERON  14 ', ['Heron 14']],
    ['Heron14', ['Heron 14']],
    ['Herons 14', ['Heron 14']],
    ['Heron 13', []],
    ['Harrow 12', []],
    ['Quillet 14', ['Quillet T14']],
    ['Osprey-Wyng', ['Ospreywing']],
    ['Kite', []],
  ])('%j', (given, names) => {
    expect(almost(given)).toEqual(names)
  })
})
