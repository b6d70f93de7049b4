import { cleanup, render, screen, within } from '@testing-library/react'
import { afterEach, expect, it } from 'vitest'
import { planOf } from '../../../core/planning/plan.ts'
import { usualSetUp } from '../../../core/planning/usual-set-up.ts'
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
