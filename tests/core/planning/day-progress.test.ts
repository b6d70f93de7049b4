import { describe, expect, it } from 'vitest'
import { clipsMissing, nextTurn } from '../../../core/planning/day-progress.ts'
import { paddleWordsOf } from '../../../core/planning/paddle-words.ts'

const turn = (hits: number, clips: (string | null)[] = [], leftOut = false) => ({
  hits,
  leftOut,
  clips: clips.map(trouble => ({ trouble })),
})

describe('a day in progress', () => {
  it('goes on with the first turn that misses a clip, in order', () => {
    expect(nextTurn([turn(2, [null, null]), turn(2, [null]), turn(2)], 'hit')).toBe(1)
    expect(nextTurn([turn(2, [null]), turn(2)], 'turn')).toBe(1)
    expect(nextTurn([turn(1, [null])], 'hit')).toBe(-1)
    expect(nextTurn([], 'hit')).toBe(-1)
  })

  it('misses what cannot be measured, and nothing of a turn that is left out', () => {
    expect(clipsMissing(turn(2, [null, 'mixed']), 'hit')).toBe(1)
    expect(nextTurn([turn(2, [], true), turn(2)], 'hit')).toBe(1)
  })

  it('has no fewer than none missing where more was filmed than planned', () => {
    expect(clipsMissing(turn(1, [null, null]), 'hit')).toBe(0)
  })

  it('expects no clip of a turn without hits, as there are when blocks outnumber hits', () => {
    expect(nextTurn([turn(0)], 'turn')).toBe(-1)
  })
})

describe('a paddle’s line', () => {
  it.each([
    ['Heron 14', 'Heron 14', 'stock'],
    ['Heron 14 / weighted', 'Heron 14', 'weighted'],
    ['Heron 14/16', 'Heron 14/16', 'stock'],
    ['Heron / lead / overgrip', 'Heron', 'lead / overgrip'],
    ['Heron / ', 'Heron', 'stock'],
  ])('“%s” is %s, %s', (line, paddle, setUp) => expect(paddleWordsOf(line)).toEqual({ paddle, setUp }))
})
