import { describe, expect, it } from 'vitest'
import { testDayOf } from '../../../core/planning/test-day.ts'

const day = {
  paddles: ['Ostrel 16', 'Ostrel 14', 'Venn', 'Karst'],
  reference: 'Hall paddle',
  hitsEach: 10,
  blocks: 3,
  ballChangeAfter: 20,
  seed: 7,
}
const names = (seed: number) => testDayOf({ ...day, seed }).map(block => block.turns.map(turn => turn.paddle))

describe('a test day', () => {
  it('every block holds every paddle and the reference, once each', () => {
    for (const block of names(7)) expect(block.toSorted()).toEqual([...day.paddles, day.reference].toSorted())
  })

  it('a paddle has all of its hits, spread over the blocks', () => {
    const hits = testDayOf(day).map(block => block.turns.find(turn => turn.paddle === 'Venn')!.hits)
    expect(hits.reduce((sum, n) => sum + n, 0)).toBe(10)
    expect(Math.max(...hits) - Math.min(...hits)).toBeLessThanOrEqual(1)
  })

  it('the same seed gives the same order, another one another', () => {
    expect(names(7)).toEqual(names(7))
    expect(names(8)).not.toEqual(names(7))
  })

  it('each paddle stands at each place of a block as often as chance has it', () => {
    const first = Array.from({ length: 600 }, (_, seed) => names(seed)[0]![0])
    for (const paddle of [...day.paddles, day.reference]) {
      const count = first.filter(name => name === paddle).length
      // Binomial, 600 trials at 1/5: 120 ± 9.8; within five standard deviations.
      expect(Math.abs(count - 120)).toBeLessThan(49)
    }
  })

  it('no ball takes more hits than it should, and the day begins with a fresh one', () => {
    let since = 0
    testDayOf(day)
      .flatMap(block => block.turns)
      .forEach((turn, i) => {
        if (i === 0) expect(turn.freshBall).toBe(true)
        since = turn.freshBall ? turn.hits : since + turn.hits
        expect(since).toBeLessThanOrEqual(20)
      })
  })
})
