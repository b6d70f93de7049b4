import { describe, expect, it } from 'vitest'
import { chooseItems, planStudy } from '../../../core/marking/study-plan.ts'
import { chanceOf } from './study-chance.ts'

const hits = [12, 3, 30].map((marks, hit) => Array.from({ length: marks }, (_, i) => `${hit}:${i}`))

describe('the marks of a study', () => {
  it('are spread over the hits and over each flight', () => {
    const chosen = chooseItems(hits, 9)
    expect([0, 1, 2].map(hit => chosen.filter(item => item.startsWith(`${hit}:`)).length)).toEqual([3, 3, 3])
    const frames = chosen.filter(item => item.startsWith('2:')).map(item => Number(item.split(':')[1]))
    expect(Math.max(...frames) - Math.min(...frames)).toBeGreaterThanOrEqual(15)
  })

  it('are the beginning of a larger choice, each once, and all of them when more are asked for', () => {
    expect(chooseItems(hits, 20).slice(0, 9)).toEqual(chooseItems(hits, 9))
    expect(chooseItems(hits, 99).toSorted()).toEqual(hits.flat().toSorted())
    expect(chooseItems([], 5)).toEqual([])
    expect(chooseItems([[], ['a']], 5)).toEqual(['a'])
  })
})

describe('the order of showing', () => {
  const items = Array.from({ length: 21 }, (_, i) => i)

  it('shows each twice, all once before any again, more than half of them between', () => {
    for (let seed = 1; seed <= 200; seed++) {
      const order = planStudy(items, chanceOf(seed))
      expect(order.slice(0, 21).toSorted((a, b) => a - b)).toEqual(items)
      for (const item of items)
        expect(order.lastIndexOf(item) - order.indexOf(item)).toBeGreaterThan(items.length / 2 - 1)
    }
  })

  it('is by chance: another seed another order, each item first about as often, the same seed the same', () => {
    expect(planStudy(items, chanceOf(4))).toEqual(planStudy(items, chanceOf(4)))
    const firsts = Array.from({ length: 2100 }, (_, seed) => planStudy(items, chanceOf(seed + 1))[0]!)
    const counts = items.map(item => firsts.filter(first => first === item).length)
    // χ² with 20 degrees of freedom stays below 45.3 in 999 of 1000 (NIST/SEMATECH e-Handbook, 1.3.6.7.4; typed from memory, checked with SciPy’s chi2.ppf).
    expect(counts.reduce((sum, n) => sum + (n - 100) ** 2 / 100, 0)).toBeLessThan(45.3)
  })
})
