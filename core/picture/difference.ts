import type { ComparedPair } from '../contract/standings.ts'
import { type Figures, figuresIn, halfWidthOf } from './figure-text.ts'
import type { Look, Size } from './look.ts'
import { bandBar, type Dots, dotsRow, meanStroke, meanWords, nameOf, valuesOf } from './paddle-dots.ts'
import { rowsOf } from './rows.ts'
import { scaleOver, scaleShapes } from './scale.ts'
import type { Scene } from './scene.ts'
import { fitted } from './text-width.ts'

export type Difference = Pick<ComparedPair, 'differenceRpm' | 'band' | 'probabilityAOverB'>

/** Two paddles' hits on one scale, and below it the difference of their means with its band and zero. */
export function difference(a: Dots, b: Dots, pair: Difference, look: Look, size: Size): Scene {
  const heading = `${nameOf(a)} against ${nameOf(b)}`
  const { differenceRpm, band } = pair
  const figures = figuresIn(look.figures)
  const words = `${differenceRpm > 0 ? '+' : ''}${figures.spin(differenceRpm, band && halfWidthOf(band))}`
  const rows = rowsOf(
    [
      { name: nameOf(a), right: meanWords(a, figures) },
      { name: nameOf(b), right: meanWords(b, figures) },
      { name: `spin, ${figures.unit}`, right: '' },
      { name: 'difference', right: words },
    ],
    { heading, said: saidOf(a, b, pair, figures) },
    look,
    size,
  )
  const { palette, fontPx, pitch } = rows
  const upper = { ...rows, bottom: rows.top + 2 * pitch }
  const lower = { ...rows, top: rows.top + 3 * pitch }
  const scale = scaleOver([...valuesOf(a), ...valuesOf(b)], upper)
  const apart = scaleOver([0, differenceRpm, ...(band ? [band.lowRpm, band.highRpm] : [])], lower)
  const y = rows.y(3)
  const half = Math.min(0.36 * pitch, 0.5 * fontPx)
  return {
    ...{ widthPx: rows.widthPx, heightPx: rows.heightPx, title: heading, paper: palette.paper },
    shapes: [
      ...scaleShapes(scale, upper, '').slice(0, -1),
      ...scaleShapes(apart, lower, `difference of the means, ${figures.unit}`),
      ...rows.shapes,
      ...dotsRow(a, rows, scale, rows.y(0), palette.first),
      ...dotsRow(b, rows, scale, rows.y(1), palette.second),
      ...(band ? [bandBar(apart.x(band.lowRpm), apart.x(band.highRpm), y, half, palette.strong)] : []),
      meanStroke(apart.x(differenceRpm), y, half * 1.3, palette.ink),
    ],
  }
}

function saidOf(
  a: Dots,
  b: Dots,
  { probabilityAOverB, differenceRpm, band }: Difference,
  { digits, rate, unit }: Figures,
): string {
  if (probabilityAOverB === null || band === null) return 'One hit each cannot say whether the two differ.'
  const [more, chance] = probabilityAOverB >= 0.5 ? [a, probabilityAOverB] : [b, 1 - probabilityAOverB]
  const sure = chance > 0.995 ? 'almost certainly' : `with a probability of ${digits(100 * chance)} %`
  return `${fitted(nameOf(more), 400, 14)} spins more, ${sure}; ${rate(Math.abs(differenceRpm))} ${unit} apart.`
}
