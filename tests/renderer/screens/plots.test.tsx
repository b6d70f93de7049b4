import { cleanup, render, screen, within } from '@testing-library/react'
import { afterEach, expect, it } from 'vitest'
import type { CheckEvidence } from '../../../core/contract/checks.ts'
import { planOf } from '../../../core/planning/plan.ts'
import { usualSetUp } from '../../../core/planning/usual-set-up.ts'
import { EvidencePlot } from '../../../renderer/screens/cameras/evidence-plot.tsx'
import { BandPlot } from '../../../renderer/screens/plan/band-plot.tsx'
import { DifferenceDots } from '../../../renderer/screens/study/difference-dots.tsx'

afterEach(cleanup)

const cellsOf = (table: HTMLElement) =>
  within(table)
    .getAllByRole('row')
    .slice(1)
    .map(row => [...row.children].map(cell => cell.textContent))

it('the plan’s curves stand in a table for ears, those without a figure too', () => {
  const points = [
    { rpm: 1000, halfWidthRpm: 12.4, flag: 'clear' as const },
    { rpm: 3000, halfWidthRpm: null, flag: 'too-few-frames' as const },
  ]
  render(<BandPlot plan={planOf(usualSetUp)} curves={[{ captureFps: 240, ceilingRpm: 7200, points }]} />)
  expect(cellsOf(screen.getByRole('table', { name: /^Half-width/ }))).toEqual([
    ['240', '1000', '12', 'clear'],
    ['240', '3000', 'none', 'too-few-frames'],
  ])
})

it('second clicks stand in a table for ears', () => {
  const dots = [
    { person: 'Ada', dxPx: 1.25, dyPx: -0.5, outlying: false },
    { person: 'Ada', dxPx: -9, dyPx: 3, outlying: true },
  ]
  render(<DifferenceDots dots={dots} person="Ada" />)
  expect(cellsOf(screen.getByRole('table', { name: /^Second clicks of Ada/ }))).toEqual([
    ['1.3', '−0.5', 'no'],
    ['−9.0', '3.0', 'yes'],
  ])
})

it('what a camera check rests on stands in a table for ears, its line and places too', () => {
  const evidence: CheckEvidence = {
    points: [
      [0, 0.01],
      [50, -1.2345],
    ],
    joined: false,
    xWords: 'height in the picture, % from the top',
    yWords: 'seen later than the top, ms',
    lines: [{ x: 25, word: 'one turn' }],
    fit: [
      [0, 0],
      [100, 3.02],
    ],
  }
  render(<EvidencePlot evidence={evidence} />)
  const table = screen.getByRole('table', {
    name: 'Seen later than the top, ms against height in the picture, % from the top. The line through them goes from 0; 0 to 100; 3.02. One turn at 25.',
  })
  expect(cellsOf(table)).toEqual([
    ['0', '0.01'],
    ['50', '−1.234'],
  ])
})
