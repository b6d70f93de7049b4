import type { Outline } from '../contract/marks.ts'
import type { Reading } from '../contract/reading.ts'
import { readingWords } from './bearing-picture.ts'
import { type Figures, figuresIn } from './figure-text.ts'
import { type Look, paletteOf, type Size } from './look.ts'
import { headed } from './rows.ts'
import type { Scene, Shape } from './scene.ts'
import { textWidth } from './text-width.ts'

/** A ball of the picture: its frame, its circle in px of the photograph, and the bearing of its mark. */
export type Flash = { frame: number; outline: Outline; bearingDeg: number | null }
/** The flight in one photograph. */
export type Strobe = {
  name: string
  reading: Reading
  captureFps: number
  photograph: { pngBase64: string; widthPx: number; heightPx: number }
  flashes: readonly Flash[]
}

/** Outlines far enough apart in the picture that no ball covers another, from the first on. */
export function apart<T extends { outline: Outline }>(balls: readonly T[]): T[] {
  const kept: T[] = []
  for (const ball of balls) {
    const before = kept.at(-1)
    const dx = before ? ball.outline.xPx - before.outline.xPx : 0
    const dy = before ? ball.outline.yPx - before.outline.yPx : 0
    const room = before ? 1.04 * (ball.outline.radiusPx + before.outline.radiusPx) : 0
    if (!before || Math.hypot(dx, dy) >= room) kept.push(ball)
  }
  return kept
}

/** The ball's places in one picture, each with its outline, the bearing of its mark and the time since the first. */
export function strobePicture(strobe: Strobe, look: Look, { widthPx, ...size }: Size): Scene {
  const { photograph, flashes, name, reading, captureFps } = strobe
  const palette = paletteOf(look)
  const figures = figuresIn(look.figures)
  const fontPx = Math.max(6, Math.min(look.fontPx, widthPx / 30))
  const headPx = 4.4 * fontPx
  const natural = (widthPx * photograph.heightPx) / photograph.widthPx + headPx
  const heightPx = size.heightPx ?? Math.round(natural)
  const scale = Math.min(widthPx / photograph.widthPx, (heightPx - headPx) / photograph.heightPx)
  const left = (widthPx - photograph.widthPx * scale) / 2
  const heading = `${name}: ${readingWords(reading, figures)}`
  const step = flashes.length > 1 ? flashes[1]!.frame - flashes[0]!.frame : 0
  return {
    ...{ widthPx, heightPx, title: heading, paper: palette.paper },
    shapes: [
      ...headed({ heading, said: saidOf(step, captureFps, figures) }, { palette, fontPx, widthPx }),
      {
        ...{ kind: 'image', x: left, y: headPx, pngBase64: photograph.pngBase64 },
        ...{ width: photograph.widthPx * scale, height: photograph.heightPx * scale },
      },
      ...flashes.flatMap(flash => flashShapes(flash, flashes[0]!.frame, { left, headPx, scale, fontPx })),
    ],
  }
}

const saidOf = (step: number, captureFps: number, { digits }: Figures): string =>
  step > 0
    ? `One ball every ${step === 1 ? 'frame' : `${step} frames`}, ${digits((1000 * step) / captureFps, 1)} ms apart; the line is the bearing of the mark.`
    : 'The line is the bearing of the mark.'

type Placed = { left: number; headPx: number; scale: number; fontPx: number }

function flashShapes({ frame, outline, bearingDeg }: Flash, first: number, placed: Placed): Shape[] {
  const { left, headPx, scale, fontPx } = placed
  const [x, y, r] = [left + outline.xPx * scale, headPx + outline.yPx * scale, outline.radiusPx * scale]
  const words = `+${frame - first}`
  const sizePx = 0.8 * fontPx
  const wide = textWidth(words, sizePx) < 2 * r
  return [
    ...twice({ kind: 'circle', x, y, r }, 1.4),
    ...(bearingDeg === null ? [] : bearingLine(x, y, r, bearingDeg)),
    ...(wide
      ? [
          {
            ...{ kind: 'text' as const, x, y: y + r + sizePx * 1.2, text: words, sizePx },
            ...{ fill: '#ffffff', anchor: 'middle' as const, halo: '#000000' },
          },
        ]
      : []),
  ]
}

function bearingLine(x: number, y: number, r: number, bearingDeg: number): Shape[] {
  const angle = (bearingDeg * Math.PI) / 180
  const end = { x2: x + r * Math.cos(angle), y2: y + r * Math.sin(angle) }
  return twice({ kind: 'line', x1: x, y1: y, ...end }, 1.8)
}

/** White on black: seen on any photograph, without a colour. */
function twice(shape: Shape & { kind: 'circle' | 'line' }, strokePx: number): Shape[] {
  return [
    { ...shape, stroke: '#000000', strokePx: strokePx + 1.6 },
    { ...shape, stroke: '#ffffff', strokePx },
  ]
}
