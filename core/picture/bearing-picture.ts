import type { Flag, Reading } from '../contract/reading.ts'
import { type Figures, figuresIn, halfWidthOf } from './figure-text.ts'
import { flagWords } from './flag-shape.ts'
import { type Look, type Palette, paletteOf, type Size } from './look.ts'
import { headed } from './rows.ts'
import type { Scene, Shape } from './scene.ts'
import { degOnLine, type Series, spread } from './series.ts'
import { angleTicks, roundTicks } from './ticks.ts'
import { picturesAlong, type TimeAxis, timeAxis } from './time-axis.ts'

/** A hit as its plot shows it. Times are real seconds, by frame of the clip. */
export type PlottedHit = {
  name: string
  window: { fromFrame: number; toFrame: number }
  reading: Reading
  series: readonly Series[]
  timesSeconds: readonly number[]
  bandHalfDeg(timeSeconds: number): number
}
/** The ball in one frame, a square picture with the ball in its middle. */
export type StripTile = { frame: number; pngBase64: string }

/** The frames of the strip for a picture of this width. */
export const stripFrames = (hit: PlottedHit, look: Look, size: Size): number[] => {
  const { axis, tilePx } = layoutOf(hit, look, size)
  return picturesAlong(axis, tilePx + 1)
}

/** `2331 ± 9 rpm, clear`. */
export function readingWords(
  { rpm, band, flag }: { rpm: number | null; band: Reading['band']; flag: Flag },
  { spin, unit }: Figures,
) {
  if (rpm === null) return `no figure, ${flagWords[flag]}`
  return `${spin(rpm, band && halfWidthOf(band))} ${unit}, ${flagWords[flag]}`
}

/** Bearing against time with the fit and its band; the ball of each frame stands exactly above its point. */
export function bearingPicture(hit: PlottedHit, strip: readonly StripTile[], look: Look, size: Size): Scene {
  const { palette, fontPx, widthPx, heightPx, axis, tilePx, field } = layoutOf(hit, look, size)
  const figures = figuresIn(look.figures)
  const degs = hit.series.flatMap(series => series.points.map(point => point.deg))
  const span = spread(degs, 0.08) ?? { low: 0, high: 360 }
  const y = (deg: number) =>
    field.bottom - ((deg - span.low) / (span.high - span.low)) * (field.bottom - field.top)
  const heading = `${hit.name}: ${readingWords(hit.reading, figures)}`
  const turned = hit.reading.method === 'sphere' ? 'angle turned' : 'bearing of the mark'
  return {
    ...{ widthPx, heightPx, title: heading, paper: palette.paper },
    shapes: [
      ...headed(
        {
          heading,
          said: `${hit.reading.method === 'sphere' ? 'How far the ball has turned' : 'Where the mark points'}, frame by frame; the slope of the line is the spin.`,
        },
        { palette, fontPx, widthPx },
      ),
      ...strip.map(
        ({ frame, pngBase64 }): Shape => ({
          ...{ kind: 'image', x: axis.x(frame) - tilePx / 2, y: field.top - tilePx - 0.5 * fontPx },
          ...{ width: tilePx, height: tilePx, pngBase64 },
        }),
      ),
      ...gridOf(hit, { palette, fontPx, axis, field, span, y, turned, figures }),
      {
        ...{ kind: 'inside', x: axis.leftPx, y: field.top },
        ...{ width: axis.rightPx - axis.leftPx, height: field.bottom - field.top },
        shapes: hit.series.flatMap((series, i) => seriesShapes(hit, series, i, { palette, fontPx, axis, y })),
      },
    ],
  }
}

type Field = { top: number; bottom: number }

function layoutOf({ timesSeconds, window }: PlottedHit, look: Look, { widthPx, ...size }: Size) {
  const palette = paletteOf(look)
  const heightPx = size.heightPx ?? Math.round(widthPx * 0.6)
  const fontPx = Math.max(6, Math.min(look.fontPx, widthPx / 30, heightPx / 18))
  const span = { leftPx: 6.2 * fontPx, rightPx: widthPx - fontPx }
  const axis = timeAxis(timesSeconds, { ...window, ...span })
  const column = (span.rightPx - span.leftPx) / (window.toFrame - window.fromFrame + 1)
  const tilePx = Math.min(Math.max(column - 1, 2.2 * fontPx), 4.5 * fontPx)
  const field: Field = { top: 5 * fontPx + tilePx, bottom: heightPx - 3.8 * fontPx }
  return { palette, fontPx, widthPx, heightPx, axis, tilePx, field }
}

type Drawn = { palette: Palette; fontPx: number; axis: TimeAxis; y(deg: number): number }
type Grid = Drawn & { field: Field; span: { low: number; high: number }; turned: string; figures: Figures }

function gridOf({ timesSeconds, window }: PlottedHit, grid: Grid): Shape[] {
  const { palette, fontPx, axis, field, span, y, turned } = grid
  const { digits } = grid.figures
  const zero = timesSeconds[window.fromFrame] ?? 0
  const msOf = (frame: number) => ((timesSeconds[frame] ?? zero) - zero) * 1000
  const small = { kind: 'text' as const, sizePx: 0.86 * fontPx, fill: palette.quiet }
  const middle = { anchor: 'middle' as const }
  return [
    ...angleTicks(span.low, span.high, Math.max(2, (field.bottom - field.top) / (3 * fontPx))).flatMap(
      (deg): Shape[] => [
        { kind: 'line', x1: axis.leftPx, x2: axis.rightPx, y1: y(deg), y2: y(deg), stroke: palette.line },
        {
          ...small,
          x: axis.leftPx - 0.5 * fontPx,
          y: y(deg) + 0.3 * fontPx,
          text: `${digits(deg)}°`,
          anchor: 'end',
        },
      ],
    ),
    ...roundTicks(0, msOf(window.toFrame), 8).map((ms): Shape => {
      const x = axis.xOfTime(zero + ms / 1000)
      return {
        ...small,
        ...middle,
        x,
        y: field.bottom + 1.4 * fontPx,
        text: digits(ms, Number.isInteger(ms) ? 0 : 1),
      }
    }),
    {
      ...small,
      ...middle,
      x: (axis.leftPx + axis.rightPx) / 2,
      y: field.bottom + 2.8 * fontPx,
      text: 'time, ms',
    },
    {
      ...small,
      ...middle,
      x: 1.6 * fontPx,
      y: (field.top + field.bottom) / 2,
      text: `${turned}, degrees`,
      upright: true,
    },
  ]
}

function seriesShapes(hit: PlottedHit, { line, points }: Series, index: number, drawn: Drawn): Shape[] {
  const { palette, fontPx, axis, y } = drawn
  const hue = index % 2 === 0 ? palette.first : palette.second
  const r = 0.3 * fontPx
  const fit = line === null ? [] : bandAndLine(hit, line, drawn, hue)
  return [
    ...fit,
    ...points.map(({ frame, deg, weight }): Shape => {
      const at = { x: axis.x(frame), y: y(deg) }
      const paint = weight < 0.5 || index > 0 ? { stroke: hue, strokePx: 1.8 } : { fill: hue }
      return index % 2 === 0
        ? { kind: 'circle', ...at, r, ...paint }
        : { kind: 'rect', x: at.x - r, y: at.y - r, width: 2 * r, height: 2 * r, ...paint }
    }),
  ]
}

function bandAndLine(
  { timesSeconds, window, bandHalfDeg }: PlottedHit,
  line: NonNullable<Series['line']>,
  { axis, y, palette }: Drawn,
  hue: string,
): Shape[] {
  const times = Array.from(
    { length: window.toFrame - window.fromFrame + 1 },
    (_, i) => timesSeconds[window.fromFrame + i] ?? 0,
  )
  const at = (time: number, side: number) =>
    `${axis.xOfTime(time).toFixed(2)} ${y(degOnLine(line, time) + side * bandHalfDeg(time)).toFixed(2)}`
  const around = [...times.map(time => at(time, 1)), ...times.toReversed().map(time => at(time, -1))]
  return [
    { kind: 'path', d: `M${around.join('L')}Z`, fill: hue, opacity: 0.18 },
    { kind: 'path', d: `M${times.map(time => at(time, 0)).join('L')}`, stroke: palette.ink, strokePx: 1.25 },
  ]
}
