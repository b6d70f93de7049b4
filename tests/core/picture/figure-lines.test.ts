import { describe, expect, it } from 'vitest'
import { type FigureLine, figureLine, markdownLines, plainLines } from '../../../core/picture/figure-lines.ts'
import { digits, figuresIn, usualFigures } from '../../../core/picture/figure-text.ts'

const figure: FigureLine = {
  paddle: 'Heron 14',
  setUp: 'stock',
  meanRpm: 2331.4,
  band: { lowRpm: 2322.2, highRpm: 2340.6, level: 0.95 },
  hits: 12,
  percentile: 94.1,
  flag: 'clear',
  captureFps: [240],
  ranked: 61,
}

describe('a figure in a line', () => {
  // The half-width 9.2 keeps one digit: leading digits 920, between 355 and 949 (Particle Data Group, 5.3).
  it('has value and half-width by the rule of rounding, hits, capture rate and percentile', () => {
    expect(figureLine(figure, usualFigures).replaceAll('\u00a0', ' ')).toBe(
      '2331 ± 9 rpm (95 %, 12 hits, 240 fps), 94th percentile of 61',
    )
  })
  // 127: leading digits between 100 and 354 keep two digits, so tens.
  it('rounds the value where the band is wide', () => {
    const wide = { ...figure, band: { lowRpm: 2204.4, highRpm: 2458.4, level: 0.95 } }
    expect(figureLine(wide, usualFigures)).toMatch(/^2330\u00a0±\u00a0130 rpm/)
  })
  it('says a flag, two capture rates, a single hit, and that there is no figure', () => {
    expect(figureLine({ ...figure, flag: 'near-ceiling' }, usualFigures)).toMatch(/, near ceiling$/)
    expect(figureLine({ ...figure, captureFps: [240, 120] }, usualFigures)).toContain('120 and 240 fps')
    expect(figureLine({ ...figure, hits: 1 }, usualFigures)).toContain('1 hit,')
    expect(figureLine({ ...figure, meanRpm: null }, usualFigures)).toBe('no figure yet')
  })
  it('stays one line and plain text, whatever the paddle is named', () => {
    const named = { ...figure, paddle: '**x**\n<b>[a](b)', setUp: 'a_b' }
    expect(plainLines([named], usualFigures).split('\n')).toHaveLength(2)
    expect(markdownLines([named], usualFigures)).toMatch(
      /^- \*\*\\\*\\\*x\\\*\\\* \\<b\\>\\\[a\\\]\\\(b\\\)\\, a\\_b\*\*: /,
    )
  })
})

describe('figures in other forms', () => {
  // Groups of three set apart, decimal sign: ISO 80000-1, 7.3.1 and 7.3.2; comma and point as they are used in
  // print (common practice, no source).
  it.each([
    ['space-point', '12\u202f345.6'],
    ['space-comma', '12\u202f345,6'],
    ['comma-point', '12,345.6'],
    ['point-comma', '12.345,6'],
  ] as const)('%s', (numbers, written) => {
    expect(digits(12_345.6, 1, numbers)).toBe(written)
    expect(digits(-2331, 0, numbers)).toBe('\u22122331')
  })
  // 2331.4/60 = 38.857 and 9.2/60 = 0.1533: two digits of the half-width, leading digits 153.
  // 2331.4·2π/60 = 244.144 and 9.2·2π/60 = 0.9634: leading digits 963 become 1.0, one decimal.
  it.each([
    ['turns-per-second', '38.86 ± 0.15', 'turns/s'],
    ['rad-per-second', '244.1 ± 1.0', 'rad/s'],
  ] as const)('in %s, rounded by the same rule', (unit, written, word) => {
    const figures = figuresIn({ numbers: 'space-point', unit })
    expect(figures.spin(2331.4, 9.2).replaceAll('\u00a0', ' ')).toBe(written)
    expect(figures.unit).toBe(word)
    expect(figureLine(figure, figures)).toContain(word)
  })
})
