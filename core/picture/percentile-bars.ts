import type { Look, Size } from './look.ts'
import { rowsOf } from './rows.ts'
import { scaleShapes } from './scale.ts'
import type { Scene, Shape } from './scene.ts'
import { fitted, textWidth } from './text-width.ts'

/** A figure of the paddle's among those of all: `said` is the figure in words, with its unit. */
export type PlacedFigure = { name: string; said: string; percentile: number | null }

/** One paddle's percentile in every metric that the person keeps: a bar each, from 0 to 100. */
export function percentileBars(
  paddle: string,
  figures: readonly PlacedFigure[],
  definition: string,
  look: Look,
  size: Size,
): Scene {
  const rows = rowsOf(
    figures.map(({ name, said }) => ({ name, right: said })),
    { heading: `${paddle} among all paddles`, said: `Percentile: ${definition}.` },
    look,
    size,
  )
  const { palette, fontPx, left, right, pitch } = rows
  const x = (percentile: number) => left + (percentile / 100) * (right - left)
  const ticks = [0, 25, 50, 75, 100].map(tick => ({ x: x(tick), words: String(tick), isZero: tick === 0 }))
  const half = Math.min(0.3 * pitch, 0.6 * fontPx)
  return {
    ...{ widthPx: rows.widthPx, heightPx: rows.heightPx, paper: palette.paper },
    title: `${paddle} among all paddles`,
    shapes: [
      ...scaleShapes({ ticks }, rows, 'percentile'),
      ...rows.shapes,
      ...figures.flatMap(({ percentile }, row): Shape[] => {
        const y = rows.y(row)
        if (percentile === null) return [figure(left + 0.5 * fontPx, y, 'no figure', palette.quiet)]
        const words = percentile.toFixed(0)
        const room = textWidth(words, fontPx) + fontPx
        const isInside = x(percentile) + room > right
        return [
          {
            ...{ kind: 'rect', x: left, y: y - half, width: Math.max(2, x(percentile) - left) },
            ...{ height: 2 * half, fill: palette.first },
          },
          isInside
            ? { ...figure(x(percentile) - 0.4 * fontPx, y, words, palette.onFirst), anchor: 'end' }
            : figure(x(percentile) + 0.4 * fontPx, y, words, palette.ink),
        ]
      }),
    ],
  }

  function figure(at: number, y: number, text: string, fill: string): Shape & { kind: 'text' } {
    const words = fitted(text, right - left, fontPx)
    return { kind: 'text', x: at, y: y + 0.35 * fontPx, text: words, sizePx: fontPx, fill }
  }
}
