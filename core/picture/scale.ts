import type { Rows } from './rows.ts'
import type { Shape } from './scene.ts'
import { textWidth } from './text-width.ts'
import { roundTicks } from './ticks.ts'

export type Tick = { x: number; words: string; isZero: boolean }
export type Scale = { ticks: Tick[]; x(value: number): number }

type Across = Pick<Rows, 'left' | 'right' | 'fontPx' | 'figures'>

/** A scale across the field that holds all rates (rpm), its ends on round figures of the unit that is shown. */
export function scaleOver(rpm: readonly number[], { left, right, fontPx, figures }: Across): Scale {
  const values = rpm.map(one => one * figures.perRpm)
  const [low, high] = values.length > 0 ? [Math.min(...values), Math.max(...values)] : [0, 1000]
  const room = Math.max((high - low) * 0.02, Math.abs(high) * 0.005, 1e-9)
  const widest = Math.max(...[low, high].map(end => textWidth(figures.digits(end), fontPx)))
  const most = Math.max(2, Math.floor((right - left) / (widest + 2 * fontPx)))
  const inner = roundTicks(low - room, high + room, most)
  const step = inner.length > 1 ? inner[1]! - inner[0]! : (high - low + 2 * room) / 2
  const from = Math.floor((low - room) / step) * step
  const to = Math.ceil((high + room) / step) * step
  const at = (value: number) => left + ((value - from) / (to - from)) * (right - left)
  const decimals = Math.max(0, -Math.floor(Math.log10(step) + 1e-9))
  return {
    x: value => at(value * figures.perRpm),
    ticks: roundTicks(from, to, Math.max(most, Math.round((to - from) / step))).map(tick => ({
      x: at(tick),
      words: figures.digits(tick, decimals),
      isZero: tick === 0,
    })),
  }
}

type Field = Pick<Rows, 'palette' | 'fontPx' | 'left' | 'right' | 'top' | 'bottom'>

/** The scale's lines through the field, its figures below, and what it counts in. */
export function scaleShapes(
  { ticks }: Pick<Scale, 'ticks'>,
  { palette, fontPx, left, right, top, bottom }: Field,
  label: string,
): Shape[] {
  const figurePx = 0.86 * fontPx
  return [
    ...ticks.map(
      ({ x, isZero }): Shape => ({
        ...{ kind: 'line', x1: x, x2: x, y1: top, y2: bottom },
        stroke: isZero ? palette.strong : palette.line,
      }),
    ),
    ...ticks.map(
      ({ x, words }): Shape => ({
        ...{ kind: 'text', x, y: bottom + 1.3 * fontPx, sizePx: figurePx, anchor: 'middle' },
        text: words,
        fill: palette.quiet,
      }),
    ),
    {
      ...{ kind: 'text', x: (left + right) / 2, y: bottom + 2.6 * fontPx, sizePx: figurePx },
      text: label,
      fill: palette.quiet,
      anchor: 'middle',
    },
  ]
}
