import type { Outline } from '../contract/marks.ts'
import { type ClipInk, usualLook } from '../contract/publish.ts'
import type { Reading } from '../contract/reading.ts'
import { readingWords } from './bearing-picture.ts'
import type { Rect } from './clip-layout.ts'
import type { Figures } from './figure-text.ts'
import { flagShape } from './flag-shape.ts'
import { paletteOf } from './look.ts'
import type { Scene, Shape } from './scene.ts'
import { fitted, textWidth } from './text-width.ts'

/** A ball as it is drawn over, in px of the annotated clip. */
export type DrawnBall = {
  outline: Outline
  /** Where each mark was seen; its bearing alone where it was followed as a direction. */
  marks: readonly { xPx: number | null; yPx: number | null; bearingDeg: number }[]
  axis: Reading['axis']
}

/** Drawn under every line, so that it shows on any ground. */
const edge = '#000000'

/**
 * Outline, marks, bearing lines and axis of one ball, in a picture of its own that lies at (x, y) of the clip:
 * only that part of each frame has to be drawn anew.
 */
export function ballMarks(
  { outline, marks, axis }: DrawnBall,
  ink: ClipInk,
): { x: number; y: number; scene: Scene } {
  const reach = outline.radiusPx * 1.5 + 6
  const x = Math.floor(outline.xPx - reach)
  const y = Math.floor(outline.yPx - reach)
  const side = Math.ceil(2 * reach) + 1
  const centre = { x: outline.xPx - x, y: outline.yPx - y }
  const r = outline.radiusPx
  const strokePx = Math.min(4, Math.max(1.5, r / 32))
  const shapes: Shape[] = [
    ...edged({ kind: 'circle', ...centre, r }, ink.outline, strokePx),
    ...(axis ? axisArrow(axis, centre, r, strokePx, ink.axis) : []),
    ...marks.flatMap(({ bearingDeg }) => bearingLine(centre, r, bearingDeg, strokePx, ink.outline)),
    ...marks.flatMap(({ xPx, yPx }): Shape[] =>
      xPx === null || yPx === null
        ? []
        : [
            {
              ...{ kind: 'circle', x: xPx - x, y: yPx - y, r: Math.max(4, r / 7) },
              ...{ stroke: ink.mark, strokePx: strokePx * 1.4 },
            },
          ],
    ),
  ]
  return { x, y, scene: { widthPx: side, heightPx: side, title: 'ball', paper: null, shapes } }
}

type Point = { x: number; y: number }

function bearingLine({ x, y }: Point, r: number, bearingDeg: number, strokePx: number, hue: string): Shape[] {
  const angle = (bearingDeg * Math.PI) / 180
  const at = (part: number) => ({ x: x + part * r * Math.cos(angle), y: y + part * r * Math.sin(angle) })
  const [from, to] = [at(1), at(1.18)]
  return edged({ kind: 'line', x1: from.x, y1: from.y, x2: to.x, y2: to.y }, hue, strokePx * 1.6)
}

/** The axis as it points in the picture; one that points along the line of sight is a dot or a cross. */
function axisArrow(
  axis: NonNullable<Reading['axis']>,
  { x, y }: Point,
  r: number,
  strokePx: number,
  hue: string,
): Shape[] {
  const across = Math.hypot(axis.x, axis.y)
  if (across < 0.12) {
    const arm = 0.05 * r
    return axis.z < 0
      ? [{ kind: 'circle', x, y, r: arm, fill: hue }]
      : [
          { kind: 'line', x1: x - arm, y1: y - arm, x2: x + arm, y2: y + arm, stroke: hue, strokePx },
          { kind: 'line', x1: x - arm, y1: y + arm, x2: x + arm, y2: y - arm, stroke: hue, strokePx },
        ]
  }
  const tip = { x: x + axis.x * r * 1.35, y: y + axis.y * r * 1.35 }
  const [ux, uy] = [axis.x / across, axis.y / across]
  const head = Math.min(0.16 * r, 0.5 * across * r)
  const wing = (side: number) =>
    `${(tip.x - head * ux - side * 0.5 * head * uy).toFixed(2)} ${(tip.y - head * uy + side * 0.5 * head * ux).toFixed(2)}`
  return [
    ...edged({ kind: 'line', x1: x, y1: y, x2: tip.x - head * ux, y2: tip.y - head * uy }, hue, strokePx),
    { kind: 'path', d: `M${tip.x.toFixed(2)} ${tip.y.toFixed(2)}L${wing(1)}L${wing(-1)}Z`, fill: hue },
  ]
}

function edged(shape: Shape & { kind: 'circle' | 'line' }, stroke: string, strokePx: number): Shape[] {
  return [
    { ...shape, stroke: edge, strokePx: strokePx * 1.9 },
    { ...shape, stroke, strokePx },
  ]
}

/** The words at the foot that stay: name, rpm with band and flag. Room is left at the right for the counter. */
export function clipPanel(panel: Rect, name: string, reading: Reading, words: ClipWords): Scene {
  const palette = paletteOf({ ...usualLook, theme: 'dark' })
  const { fontPx } = words
  const counterPx = counterWidth(words)
  const lines = panel.height > 4 * fontPx
  const room = panel.width - 2 * fontPx - (lines ? 0 : counterPx)
  const said = readingWords(reading, words.figures)
  const wordsPx = textWidth(said, fontPx)
  const middle = lines ? 0.28 * panel.height : panel.height / 2
  const below = lines ? 0.62 * panel.height : middle
  const left = lines ? fontPx : panel.width - counterPx - wordsPx - 2 * fontPx
  const text = { kind: 'text' as const, sizePx: fontPx, fill: '#ffffff' }
  return {
    ...{ widthPx: panel.width, heightPx: panel.height, title: 'words', paper: null },
    shapes: [
      { kind: 'rect', x: 0, y: 0, width: panel.width, height: panel.height, fill: '#101416', opacity: 0.78 },
      {
        ...text,
        ...{ x: fontPx, y: middle + 0.36 * fontPx, bold: true },
        text: fitted(name, lines ? room : room - wordsPx - 3 * fontPx, fontPx),
      },
      ...flagShape(reading.flag, left + 0.5 * fontPx, below, fontPx, palette),
      { ...text, x: left + 1.4 * fontPx, y: below + 0.36 * fontPx, text: fitted(said, room, fontPx) },
    ],
  }
}

/** How the words of a clip are written. */
export type ClipWords = { fontPx: number; figures: Figures }

/** Letters of the size that was asked for, as far as the panel holds them. */
export const clipWords = (panel: Rect, fontPx: number | null, figures: Figures): ClipWords => ({
  fontPx: Math.round(Math.min(fontPx ?? panel.height * 0.4, panel.height * 0.62, panel.width / 24)),
  figures,
})

/** How much room the running counter takes, px. */
const counterWidth = ({ fontPx }: ClipWords): number =>
  Math.ceil(textWidth('88.88 turns · 888.8 ms', fontPx) + fontPx)

/** The counter of turns and real time, written anew in each frame. */
export function clipCounter(turns: number | null, seconds: number, words: ClipWords): Scene {
  const { fontPx: sizePx, figures } = words
  const widthPx = counterWidth(words)
  const time = `${figures.digits(seconds * 1000, 1)} ms`
  const heightPx = Math.ceil(1.6 * sizePx)
  const text = turns === null ? time : `${figures.digits(turns, 2)} turns · ${time}`
  return {
    ...{ widthPx, heightPx, title: 'counter', paper: null },
    shapes: [
      { kind: 'text', x: widthPx - sizePx, y: 1.15 * sizePx, text, sizePx, fill: '#ffffff', anchor: 'end' },
    ],
  }
}
