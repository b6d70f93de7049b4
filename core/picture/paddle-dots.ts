import type { TableRow } from '../contract/standings.ts'
import { type Figures, figuresIn, halfWidthOf } from './figure-text.ts'
import type { Look, Size } from './look.ts'
import { type Rows, rowsOf } from './rows.ts'
import { type Scale, scaleOver, scaleShapes } from './scale.ts'
import type { Scene, Shape } from './scene.ts'

export type Dots = Pick<TableRow, 'paddle' | 'setUp' | 'meanRpm' | 'band' | 'dots' | 'leftOut'>

/**
 * "Ostrel 16", and its set-up where that is not the stock one. The mark between them (LRM) keeps a name that
 * is written from the right from drawing the set-up into it.
 */
export const nameOf = ({ paddle, setUp }: Pick<TableRow, 'paddle' | 'setUp'>): string =>
  setUp === 'stock' ? paddle : `${paddle}${writtenFromRight.test(paddle) ? '\u200e' : ''}, ${setUp}`
const writtenFromRight = /[\u0590-\u08ff\ufb1d-\ufdff\ufe70-\ufeff]/

export const meanWords = ({ meanRpm, band }: Pick<TableRow, 'meanRpm' | 'band'>, figures: Figures): string =>
  meanRpm === null ? 'no figure' : figures.spin(meanRpm, band && halfWidthOf(band))

/** Every hit of every paddle as a dot, with the mean and its band: one row a paddle. */
export function paddleDots(paddles: readonly Dots[], look: Look, size: Size): Scene {
  const heading = paddles.length === 1 ? `Hits of ${nameOf(paddles[0]!)}` : 'Hits of each paddle'
  const figures = figuresIn(look.figures)
  const rows = rowsOf(
    paddles.map(one => ({ name: nameOf(one), right: meanWords(one, figures) })),
    { heading, said: 'A dot is a hit, a ring one left out; the bar is the mean with its 95 % band.' },
    look,
    size,
  )
  const scale = scaleOver(paddles.flatMap(valuesOf), rows)
  return {
    ...{ widthPx: rows.widthPx, heightPx: rows.heightPx, title: heading, paper: rows.palette.paper },
    shapes: [
      ...scaleShapes(scale, rows, `spin, ${figures.unit}`),
      ...rows.shapes,
      ...paddles.flatMap((one, row) => dotsRow(one, rows, scale, rows.y(row), rows.palette.first)),
    ],
  }
}

export const valuesOf = ({ dots, leftOut, band, meanRpm }: Dots): number[] => [
  ...dots,
  ...leftOut,
  ...(band ? [band.lowRpm, band.highRpm] : []),
  ...(meanRpm === null ? [] : [meanRpm]),
]

/** One row: the band as a bar, the mean as a stroke through it, the hits on it. */
export function dotsRow(
  { dots, leftOut, band, meanRpm }: Dots,
  { palette, fontPx, pitch }: Pick<Rows, 'palette' | 'fontPx' | 'pitch'>,
  { x }: Scale,
  y: number,
  hue: string,
): Shape[] {
  const half = Math.min(0.42 * pitch, 0.55 * fontPx)
  const r = Math.min(0.3 * fontPx, 0.3 * pitch)
  return [
    ...(band ? [bandBar(x(band.lowRpm), x(band.highRpm), y, half, hue)] : []),
    ...leftOut.map(
      (rpm): Shape => ({ kind: 'circle', x: x(rpm), y, r: r * 0.9, stroke: palette.quiet, strokePx: 1.2 }),
    ),
    ...dots.map((rpm): Shape => ({ kind: 'circle', x: x(rpm), y, r, fill: hue, opacity: 0.75 })),
    ...(meanRpm === null ? [] : [meanStroke(x(meanRpm), y, half * 1.25, palette.ink)]),
  ]
}

/** A band never vanishes, however narrow it is on this scale. */
export const bandBar = (from: number, to: number, y: number, half: number, fill: string): Shape => ({
  ...{ kind: 'rect', x: Math.min(from, (from + to) / 2 - 1), y: y - half },
  ...{ width: Math.max(2, to - from), height: 2 * half, fill, opacity: 0.28 },
})
export const meanStroke = (x: number, y: number, half: number, stroke: string): Shape => ({
  ...{ kind: 'line', x1: x, x2: x, y1: y - half, y2: y + half, stroke, strokePx: 2 },
})
