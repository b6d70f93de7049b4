import { type Figures, figuresIn } from './figure-text.ts'
import { type Look, type Palette, paletteOf, type Size } from './look.ts'
import type { Shape } from './scene.ts'
import { fitted, textWidth } from './text-width.ts'

/**
 * Where the parts of a picture of rows stand: a heading, a name at the left of each row, a field with one
 * scale for all, words at the right, the scale's figures below. All px.
 */
export type Rows = {
  palette: Palette
  figures: Figures
  fontPx: number
  widthPx: number
  heightPx: number
  /** The field. */
  left: number
  right: number
  top: number
  bottom: number
  pitch: number
  /** The middle of a row. */
  y(row: number): number
  /** Heading, names and words at the right. */
  shapes: Shape[]
}

export type RowWords = { name: string; right: string }
type Heading = { heading: string; said: string }

/** With a height that is asked for, rows and letters shrink until they fit, down to letters of 6 px. */
export function rowsOf(words: readonly RowWords[], { heading, said }: Heading, look: Look, size: Size): Rows {
  const palette = paletteOf(look)
  const figures = figuresIn(look.figures)
  const { widthPx } = size
  const count = Math.max(1, words.length)
  const natural = heightFor(look.fontPx, count)
  const heightPx = size.heightPx ?? natural
  const shrunk = Math.max(6, Math.min(look.fontPx, (look.fontPx * heightPx) / natural))
  const fontPx = Math.min(shrunk, Math.max(6, widthPx / 24))
  const edge = fontPx
  const top = edge + 3.4 * fontPx
  const bottom = heightPx - edge - 2.6 * fontPx
  const pitch = (bottom - top) / count
  const wide = (texts: readonly string[], most: number) =>
    Math.min(most, Math.max(0, ...texts.map(text => textWidth(text, fontPx))))
  const names = wide(
    words.map(({ name }) => name),
    widthPx * 0.32,
  )
  const rights = wide(
    words.map(({ right }) => right),
    widthPx * 0.28,
  )
  const left = edge + names + fontPx
  const right = widthPx - edge - rights - (rights > 0 ? fontPx : 0)
  const y = (row: number) => top + (row + 0.5) * pitch
  const baseline = (row: number) => y(row) + 0.35 * fontPx
  return {
    ...{ palette, figures, fontPx, widthPx, heightPx, left, right, top, bottom, pitch, y },
    shapes: [
      ...headed({ heading, said }, { palette, fontPx, widthPx }),
      ...words.flatMap(({ name, right: end }, row): Shape[] => [
        {
          kind: 'text',
          x: left - fontPx,
          y: baseline(row),
          text: fitted(name, names, fontPx),
          sizePx: fontPx,
          fill: palette.ink,
          anchor: 'end',
        },
        {
          kind: 'text',
          x: right + fontPx,
          y: baseline(row),
          text: fitted(end, rights, fontPx),
          sizePx: fontPx,
          fill: palette.ink,
        },
      ]),
    ],
  }
}

const heightFor = (fontPx: number, count: number) => fontPx * (2 + 3.4 + 2.6 + 2 * count)

/** The heading of any picture, and the line below it that says how to read it. */
export function headed(
  { heading, said }: Heading,
  { palette, fontPx, widthPx }: Pick<Rows, 'palette' | 'fontPx' | 'widthPx'>,
): Shape[] {
  const room = widthPx - 2 * fontPx
  const line = { kind: 'text' as const, x: fontPx }
  return [
    {
      ...line,
      y: 2.1 * fontPx,
      text: fitted(heading, room / 1.06, 1.15 * fontPx),
      sizePx: 1.15 * fontPx,
      fill: palette.ink,
      bold: true,
    },
    {
      ...line,
      y: 3.5 * fontPx,
      text: fitted(said, room, 0.86 * fontPx),
      sizePx: 0.86 * fontPx,
      fill: palette.quiet,
    },
  ]
}
