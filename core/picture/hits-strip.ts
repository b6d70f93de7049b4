import type { Reading } from '../contract/reading.ts'
import { readingWords, type StripTile } from './bearing-picture.ts'
import { figuresIn } from './figure-text.ts'
import type { Look, Size } from './look.ts'
import { type Rows, rowsOf } from './rows.ts'
import type { Scene, Shape } from './scene.ts'

/** A hit of a session with pictures of its ball; none where the clip is not at hand. */
export type StripHit = { name: string; reading: Reading; tiles: readonly StripTile[] }
export type StripRow = Pick<StripHit, 'name' | 'reading'>

const heightPerRow = 3.2

/** How many balls there is room for in a row. */
export const tilesInRow = (hits: readonly StripRow[], day: string, look: Look, size: Size): number =>
  Math.max(0, Math.floor(fieldOf(layoutOf(hits, day, look, size))))

/** Every hit of a session, a row each: its ball frame by frame, and what was read. */
export function hitsStrip(hits: readonly StripHit[], day: string, look: Look, size: Size): Scene {
  const rows = layoutOf(hits, day, look, size)
  const { palette, pitch, fontPx, left } = rows
  const tilePx = tileOf(rows)
  return {
    ...{ widthPx: rows.widthPx, heightPx: rows.heightPx, title: headingOf(day), paper: palette.paper },
    shapes: [
      ...rows.shapes,
      ...hits.flatMap(({ tiles }, row): Shape[] => {
        const y = rows.y(row)
        if (tiles.length === 0)
          return [
            {
              ...{ kind: 'text', x: left, y: y + 0.35 * fontPx, sizePx: 0.86 * fontPx, fill: palette.quiet },
              text: 'clip not at hand',
            },
          ]
        return tiles.map(
          ({ pngBase64 }, i): Shape => ({
            ...{ kind: 'image', x: left + i * tilePx * 1.06, y: y - tilePx / 2, pngBase64 },
            ...{ width: tilePx, height: tilePx },
          }),
        )
      }),
      ...hits.slice(1).map(
        (_, i): Shape => ({
          ...{ kind: 'line', x1: fontPx, x2: rows.widthPx - fontPx, stroke: palette.line },
          ...{ y1: rows.top + (i + 1) * pitch, y2: rows.top + (i + 1) * pitch },
        }),
      ),
    ],
  }
}

const headingOf = (day: string) => `Hits of ${day}`
const tileOf = ({ pitch }: Rows) => 0.88 * pitch
const fieldOf = (rows: Rows) => (rows.right - rows.left) / (1.06 * tileOf(rows))

function layoutOf(hits: readonly StripRow[], day: string, look: Look, size: Size): Rows {
  const figures = figuresIn(look.figures)
  const fontPx = Math.min(look.fontPx, Math.max(6, size.widthPx / 24))
  const heightPx = size.heightPx ?? Math.round(fontPx * (7 + heightPerRow * Math.max(1, hits.length)))
  return rowsOf(
    hits.map(({ name, reading }) => ({ name, right: readingWords(reading, figures) })),
    { heading: headingOf(day), said: 'Each row is a hit: its ball, frame by frame, and what was read.' },
    look,
    { ...size, heightPx },
  )
}
