import type { SetUpRank, TableRow } from '../contract/standings.ts'
import { type Figures, figuresIn } from './figure-text.ts'
import { flagShape } from './flag-shape.ts'
import type { Look, Size } from './look.ts'
import { bandBar, meanStroke, meanWords, nameOf } from './paddle-dots.ts'
import { rowsOf } from './rows.ts'
import { scaleOver, scaleShapes } from './scale.ts'
import type { Scene, Shape } from './scene.ts'

export type Ranked = Pick<TableRow, 'paddle' | 'setUp' | 'meanRpm' | 'band' | 'rank' | 'flag'> & {
  rankBand: Pick<SetUpRank, 'low' | 'high'> | null
}

/** Paddles by their mean, the highest first, each with its band, and with the places that it may hold. */
export function ranking(paddles: readonly Ranked[], look: Look, size: Size): Scene {
  const heading = 'Paddles by spin'
  const placed = paddles.filter(one => one.meanRpm !== null)
  const figures = figuresIn(look.figures)
  const rows = rowsOf(
    placed.map(one => ({ name: `${placeOf(one, figures)}  ${nameOf(one)}`, right: meanWords(one, figures) })),
    { heading, said: 'Bar: 95 % band of the mean. In brackets: the places that a paddle may hold.' },
    look,
    size,
  )
  const { palette, fontPx, pitch } = rows
  const scale = scaleOver(
    placed.flatMap(({ band, meanRpm }) => [meanRpm!, ...(band ? [band.lowRpm, band.highRpm] : [])]),
    { ...rows, right: rows.right - 1.5 * fontPx },
  )
  const half = Math.min(0.36 * pitch, 0.5 * fontPx)
  return {
    ...{ widthPx: rows.widthPx, heightPx: rows.heightPx, title: heading, paper: palette.paper },
    shapes: [
      ...scaleShapes(scale, rows, `spin, ${figures.unit}`),
      ...rows.shapes,
      ...placed.flatMap(({ band, meanRpm, flag }, row): Shape[] => [
        ...(band
          ? [bandBar(scale.x(band.lowRpm), scale.x(band.highRpm), rows.y(row), half, palette.first)]
          : []),
        meanStroke(scale.x(meanRpm!), rows.y(row), half * 1.3, palette.ink),
        ...flagShape(flag, rows.right, rows.y(row), Math.min(fontPx, pitch), palette),
      ]),
    ],
  }
}

function placeOf({ rank, rankBand }: Ranked, { digits }: Figures): string {
  const place = rank === null ? '–' : digits(rank)
  return rankBand === null || rankBand.low === rankBand.high
    ? place
    : `${place} (${digits(rankBand.low)}–${digits(rankBand.high)})`
}
