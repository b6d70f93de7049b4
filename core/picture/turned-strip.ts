import type { Reading } from '../contract/reading.ts'
import { readingWords, type StripTile } from './bearing-picture.ts'
import { figuresIn } from './figure-text.ts'
import { type Look, paletteOf, type Size } from './look.ts'
import { headed } from './rows.ts'
import type { Scene, Shape } from './scene.ts'

/** A ball as it was filmed and as the reading turns it back; squares with the ball's outline at their edges. */
export type TurnedTile = StripTile & { turnedPngBase64: string }
export type TurnedHit = {
  name: string
  reading: Reading
  window: { fromFrame: number; toFrame: number }
}

/** The frames to show: as many as there is room for, evenly over the hit, the first among them. */
export function turnedFrames({ window }: TurnedHit, look: Look, size: Size): number[] {
  const { count } = layoutOf(look, size)
  const length = window.toFrame - window.fromFrame + 1
  const shown = Math.min(count, length)
  return Array.from({ length: shown }, (_, i) => window.fromFrame + Math.floor((i * length) / shown))
}

/** The ball frame by frame, and below it the same turned back to the first: if the reading is right, all look alike. */
export function turnedStrip(hit: TurnedHit, tiles: readonly TurnedTile[], look: Look, size: Size): Scene {
  const { palette, fontPx, widthPx, tilePx, left, rows, heightPx } = layoutOf(look, size)
  const heading = `${hit.name}: ${readingWords(hit.reading, figuresIn(look.figures))}`
  const small = { kind: 'text' as const, sizePx: 0.86 * fontPx, fill: palette.quiet }
  const first = tiles[0]?.frame ?? 0
  const inset = 0.04 * tilePx
  return {
    ...{ widthPx, heightPx, title: heading, paper: palette.paper },
    shapes: [
      ...headed(
        { heading, said: 'Every ball turned back by the reading: where it is right, all look the same.' },
        { palette, fontPx, widthPx },
      ),
      { ...small, x: fontPx, y: rows.filmed + 0.5 * tilePx + 0.3 * fontPx, text: 'as filmed' },
      { ...small, x: fontPx, y: rows.turned + 0.5 * tilePx + 0.3 * fontPx, text: 'turned back' },
      ...tiles.flatMap(({ frame, pngBase64, turnedPngBase64 }, i): Shape[] => {
        const x = left + i * tilePx
        const square = { width: tilePx - 2 * inset, height: tilePx - 2 * inset }
        return [
          { kind: 'image', x: x + inset, y: rows.filmed + inset, ...square, pngBase64 },
          { kind: 'image', x: x + inset, y: rows.turned + inset, ...square, pngBase64: turnedPngBase64 },
          {
            ...small,
            ...{ x: x + tilePx / 2, y: rows.turned + tilePx + 1.2 * fontPx, anchor: 'middle' },
            text: `+${frame - first}`,
          },
        ]
      }),
      {
        ...small,
        ...{ x: left, y: rows.turned + tilePx + 2.5 * fontPx },
        text: 'frames after the first',
      },
    ],
  }
}

function layoutOf(look: Look, { widthPx, ...size }: Size) {
  const palette = paletteOf(look)
  const fontPx = Math.max(6, Math.min(look.fontPx, widthPx / 30))
  const left = 7.2 * fontPx
  const room = widthPx - left - fontPx
  const count = Math.max(2, Math.min(12, Math.floor(room / (5.5 * fontPx))))
  const head = 4.6 * fontPx
  const foot = 3.4 * fontPx
  const tilePx = Math.min(room / count, size.heightPx === null ? room : (size.heightPx - head - foot) / 2)
  const rows = { filmed: head, turned: head + tilePx }
  const heightPx = size.heightPx ?? Math.round(head + 2 * tilePx + foot)
  return { palette, fontPx, widthPx, heightPx, tilePx, left, rows, count }
}
