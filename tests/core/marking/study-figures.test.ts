import { describe, expect, it } from 'vitest'
import type { StudyRemark } from '../../../core/contract/study.ts'
import { biasOf, meanDifference } from '../../../core/marking/study-bias.ts'
import { studyFigures } from '../../../core/marking/study-figures.ts'
import { repeatabilityOf } from '../../../core/marking/study-repeatability.ts'
import { componentsOf, reproducibilityOf } from '../../../core/marking/study-reproducibility.ts'
import { spreadOf, withinCells } from '../../../core/marking/study-spread.ts'
import { chanceOf, normalOf, outline, remarksOf } from './study-chance.ts'

/**
 * Peak expiratory flow of 17 subjects, l/min, two looks with a Wright meter and the first with a mini
 * meter: Bland and Altman, Lancet i (1986) 307, and Stat. Methods Med. Res. 8 (1999) 135. Values from memory.
 */
const wright = [
  [494, 490], [395, 397], [516, 512], [434, 401], [476, 470], [557, 611], [413, 415], [442, 431],
  [650, 638], [433, 429], [417, 420], [656, 633], [267, 275], [478, 492], [178, 165], [423, 372],
  [427, 421],
] as const // biome-ignore format: a table
const mini = [512, 430, 520, 428, 500, 600, 364, 380, 658, 445, 432, 626, 260, 477, 259, 350, 451]

describe('published figures', () => {
  it('the within-subject standard deviation of the Wright meter is 15.3 l/min (Bland and Altman 1999)', () => {
    const { xx, dof } = withinCells(wright.map(pair => pair.map(value => [value, 0] as const)))
    expect(dof).toBe(17)
    expect(Math.sqrt(xx / dof)).toBeCloseTo(15.3, 1)
  })

  it('the Wright meter reads 2.1 l/min under the mini meter, −22.0 to 17.8 (Bland and Altman 1986)', () => {
    const { mean, expandedUncertainty } = meanDifference(wright.map(([first], i) => first - mini[i]!))
    expect(mean).toBeCloseTo(-2.1, 1)
    expect(mean - expandedUncertainty).toBeCloseTo(-22.0, 0)
    expect(mean + expandedUncertainty).toBeCloseTo(17.8, 0)
  })

  it('sulfur in coal, level 1: s_r 0.015, s_R 0.026 % (ISO 5725-2:1994, B.1; values from memory)', () => {
    const laboratories = [
      [0.71, 0.71, 0.7, 0.71],
      [0.69, 0.67, 0.68],
      [0.66, 0.65, 0.69],
      [0.67, 0.65, 0.66],
      [0.7, 0.69, 0.66, 0.71, 0.69],
      [0.73, 0.74, 0.73],
      [0.71, 0.71, 0.69],
      [0.7, 0.65, 0.68],
    ]
    const { repeatability, reproducibility } = componentsOf([laboratories])
    expect(Math.sqrt(repeatability!)).toBeCloseTo(0.015, 3)
    expect(Math.sqrt(reproducibility)).toBeCloseTo(0.026, 3)
  })

  it.each([
    // χ² at 2.5 % and 97.5 %: NIST/SEMATECH e-Handbook, 1.3.6.7.4; typed from memory, checked with SciPy’s chi2.ppf.
    [10, 3.247, 20.483],
    [20, 9.591, 34.17],
    [40, 24.433, 59.342],
  ])('the interval of a standard deviation with %i degrees of freedom follows χ²', (dof, low, high) => {
    const spread = spreadOf(1, dof)
    expect(spread.low).toBeCloseTo(Math.sqrt(dof / high), 2)
    expect(spread.high / Math.sqrt(dof / low)).toBeCloseTo(1, 2)
  })
})

describe('one person', () => {
  const one = (items: number, sdPx: number, seed: number, fromCentrePx = 25) =>
    remarksOf({ items, people: [{ person: 'Ada', sdPx, times: 2 }], fromCentrePx }, normalOf(chanceOf(seed)))

  it('has the true click error within its interval in 95 of 100 studies, px and degrees', () => {
    const studies = 600
    let [px, deg] = [0, 0]
    // σ/ρ: 0.9 px at 25 px from the centre, in degrees.
    const trueDeg = ((0.9 / 25) * 180) / Math.PI
    for (let seed = 1; seed <= studies; seed++) {
      const figures = repeatabilityOf('Ada', one(20, 0.9, seed))
      if (figures.px!.low <= 0.9 && figures.px!.high >= 0.9) px++
      if (figures.bearingDeg!.low <= trueDeg && figures.bearingDeg!.high >= trueDeg) deg++
    }
    // Four standard deviations of a count of 600 at 95 % are 21; a bearing's interval is no exact one.
    expect(px).toBeGreaterThan(549)
    expect(px).toBeLessThan(591)
    expect(deg).toBeGreaterThan(549)
    expect(deg).toBeLessThan(593)
  }, 30_000)

  it('whose clicks scatter along one line only has half the degrees of freedom', () => {
    const along = one(40, 1, 3).map(remark =>
      remark.seen.kind === 'point' ? { ...remark, seen: { ...remark.seen, yPx: 300 } } : remark,
    )
    expect(repeatabilityOf('Ada', along).px!.effectiveDof).toBeCloseTo(40, 9)
    expect(repeatabilityOf('Ada', one(40, 1, 3)).px!.effectiveDof).toBeGreaterThan(70)
  })

  it('who clicked fewer than ten marks twice has no figure, but the reason', () => {
    const few = repeatabilityOf('Ada', one(9, 1, 1))
    expect(few).toMatchObject({ px: null, bearingDeg: null, pairs: 9, items: 9, remarks: 18 })
    expect(few.reason).toContain('9 marks have been placed twice; from 10 on')
    expect(repeatabilityOf('Ada', one(10, 1, 1)).reason).toBeNull()
    expect(repeatabilityOf('Ada', []).reason).toContain('0 marks')
  })

  it('who clicked the very same places has 0 px, not NaN', () => {
    expect(repeatabilityOf('Ada', one(12, 0, 1)).px).toMatchObject({ standardDeviation: 0, low: 0, high: 0 })
  })

  it('who took another thing for the mark once is told of it, with the figure with and without', () => {
    const remarks = one(20, 1, 5)
    remarks[12] = { ...remarks[12]!, seen: { kind: 'point', xPx: 430, yPx: 330 } }
    const { outlying, px, withoutOutlyingPx } = repeatabilityOf('Ada', remarks)
    expect(outlying).toMatchObject([{ frame: 6, grade: 'outlier' }])
    expect(px!.standardDeviation).toBeGreaterThan(3)
    expect(withoutOutlyingPx).toBeGreaterThan(0.7)
    expect(withoutOutlyingPx).toBeLessThan(1.3)
  })

  it('who did not find a mark loses that pair and no more', () => {
    const remarks = one(12, 1, 2)
    remarks[3] = { ...remarks[3]!, seen: { kind: 'unseen' } }
    expect(repeatabilityOf('Ada', remarks)).toMatchObject({ unseen: 1, pairs: 11, items: 12 })
  })

  it('who lays directions has degrees and no pixels; look-alikes count as one', () => {
    const normal = normalOf(chanceOf(9))
    const remarks = Array.from({ length: 80 }, (_, i): StudyRemark => {
      const bearingDeg = 40 * (i >> 1) + normal(3) + (i % 2) * 180
      const item = { hit: 'h', frame: i >> 1, mark: 'line', person: 'Ada' }
      return { ...item, symmetryOrder: 2, outline, seen: { kind: 'direction', bearingDeg } }
    })
    const { px, bearingDeg, reason } = repeatabilityOf('Ada', remarks)
    expect(px).toBeNull()
    expect(bearingDeg!.low).toBeLessThan(3)
    expect(bearingDeg!.high).toBeGreaterThan(3)
    expect(reason).toContain('directions')
  })

  it('has no bearing error from marks at the very centre, where a bearing means nothing', () => {
    expect(repeatabilityOf('Ada', one(20, 1, 4, 1)).bearingDeg).toBeNull()
  })
})

describe('two people', () => {
  const two = (seed: number, betweenSdPx: number, shift = { xPx: 0, yPx: 0 }) =>
    remarksOf(
      {
        items: 20,
        people: [
          { person: 'Ada', sdPx: 0.8, times: 2 },
          { person: 'Ben', sdPx: 1.2, times: 2, shift },
        ],
        betweenSdPx,
      },
      normalOf(chanceOf(seed)),
    )

  it('have the true bias within ± its expanded uncertainty in 95 of 100 studies', () => {
    const studies = 400
    let holds = 0
    for (let seed = 1; seed <= studies; seed++) {
      const { xPx } = biasOf('Ben', 'Ada', two(seed, 0.5, { xPx: 0.7, yPx: -0.4 }))
      if (Math.abs(xPx!.mean - 0.7) <= xPx!.expandedUncertainty) holds++
    }
    // Four standard deviations of a count of 400 at 95 % are 17.
    expect(holds).toBeGreaterThan(363)
    expect(holds).toBeLessThan(397)
  }, 30_000)

  it('have s_R² = s_r² + s_L² of what was put in, over many studies', () => {
    const studies = Array.from({ length: 300 }, (_, i) => reproducibilityOf(['Ada', 'Ben'], two(i + 1, 1.5)))
    const meanSquare = (of: 'reproducibilityPx' | 'betweenPeoplePx') =>
      studies.reduce((sum, each) => sum + each[of]! ** 2, 0) / studies.length
    // s_r² pooled over both: (0.8² + 1.2²)/2 = 1.04.
    expect(meanSquare('betweenPeoplePx')).toBeCloseTo(1.5 ** 2, 0)
    expect(meanSquare('reproducibilityPx') / (1.04 + 1.5 ** 2)).toBeCloseTo(1, 1)
  })

  it('who marked once each have a reproducibility and no telling what each one’s share is', () => {
    const people = ['Ada', 'Ben'].map(person => ({ person, sdPx: 1, times: 1 }))
    const { people: each, reproducibility } = studyFigures(
      remarksOf({ items: 60, people }, normalOf(chanceOf(7))),
    )
    expect(each.map(one => one.px)).toEqual([null, null])
    expect(reproducibility!.betweenPeoplePx).toBeNull()
    expect(reproducibility!.reproducibilityPx).toBeGreaterThan(0.8)
    expect(reproducibility!.reproducibilityPx).toBeLessThan(1.25)
    expect(reproducibility!.reason).toContain('twice')
  })

  it('have figures between them although a third has only begun', () => {
    const people = ['Ada', 'Ben'].map(person => ({ person, sdPx: 1, times: 2 }))
    const remarks = remarksOf({ items: 12, people }, normalOf(chanceOf(1)))
    const figures = studyFigures([...remarks, { ...remarks[0]!, person: 'Cleo' }])
    expect(figures.reproducibility).toMatchObject({ people: 2, items: 12, reason: null })
    expect(figures.bias.map(({ reason }) => reason === null)).toEqual([true, false, false])
  })

  it('with too few marks in common are told so', () => {
    const remarks = remarksOf(
      { items: 9, people: ['Ada', 'Ben'].map(person => ({ person, sdPx: 1, times: 2 })) },
      normalOf(chanceOf(1)),
    )
    const { bias, reproducibility } = studyFigures(remarks)
    expect(bias[0]).toMatchObject({
      person: 'Ben',
      against: 'Ada',
      items: 9,
      xPx: null,
      yPx: null,
      bearingDeg: null,
    })
    expect(bias[0]!.reason).toContain('9 marks')
    expect(reproducibility!.reason).toContain('9 marks')
  })
})
