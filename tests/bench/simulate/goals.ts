import type { summaryOf } from './summary.ts'

type Goal = {
  figure: string
  value: number
  shown: (value: number) => string
  target: string
  isMet: (value: number) => boolean
}

const percent = (x: number) => `${(100 * x).toFixed(2)} %`
const ratio = (x: number) => x.toFixed(3)
const always = () => true

/** What the bench is run for: each figure, what it should be and whether it is. */
export const goalsOf = (s: ReturnType<typeof summaryOf>): Goal[] => [
  {
    figure: `95 % band holds the truth (${s.clear} clear)`,
    value: s.coverage,
    shown: percent,
    target: '94–97 %',
    isMet: x => x >= 0.94 && x <= 0.97,
  },
  {
    figure: 'the same in the worst cell',
    value: s.worstCellCoverage,
    shown: percent,
    target: '≥ 92 %',
    isMet: x => x >= 0.92,
  },
  {
    figure: 'another rate called clear',
    value: s.wrongAliasCalledClear,
    shown: percent,
    target: '< 0.05 %',
    isMet: x => x < 0.0005,
  },
  {
    figure: `rms error over bound, bearing (${s.bearing.hits})`,
    value: s.bearing.rms,
    shown: ratio,
    target: '≤ 1.10',
    isMet: x => x <= 1.1,
  },
  {
    figure: `rms error over bound, sphere (${s.sphere.hits})`,
    value: s.sphere.rms,
    shown: ratio,
    target: '≤ 1.10',
    isMet: x => x <= 1.1,
  },
  {
    figure: 'true axis in its 95 % cone',
    value: s.axisCoverage,
    shown: percent,
    target: '94–97 %',
    isMet: x => x >= 0.94 && x <= 0.97,
  },
  {
    figure: 'band over counting band, median',
    value: s.bandOverCounting,
    shown: ratio,
    target: '–',
    isMet: always,
  },
]
