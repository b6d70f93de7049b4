import { figuresIn } from './figure-text.ts'
import { type Look, paletteOf, type Size } from './look.ts'
import { headed } from './rows.ts'
import type { Scene, Shape } from './scene.ts'

/** What to expect at one frame rate: half-widths of the 95 % bands, null where there is no figure. */
export type BandAtRate = {
  captureFps: number
  fittingHalfWidthRpm: number | null
  countingHalfWidthRpm: number | null
}

/** Band against frame rate on two logarithmic scales: fitting solid, counting dashed, both named at their ends. */
export function bandByRate(points: readonly BandAtRate[], rpm: number, look: Look, size: Size): Scene {
  const palette = paletteOf(look)
  const { digits, rate, unit, perRpm } = figuresIn(look.figures)
  const { widthPx } = size
  const heightPx = size.heightPx ?? Math.round(widthPx * 0.56)
  const fontPx = Math.max(6, Math.min(look.fontPx, widthPx / 30, heightPx / 16))
  const heading = `Band against frame rate at ${rate(rpm)} ${unit}`
  const field = {
    left: 5.5 * fontPx,
    right: widthPx - 6.5 * fontPx,
    top: 5.4 * fontPx,
    bottom: heightPx - 4 * fontPx,
  }
  const halves = points.flatMap(one => [one.fittingHalfWidthRpm, one.countingHalfWidthRpm]).filter(isFigure)
  const low = Math.min(1, ...halves) * perRpm
  const high = Math.max(100, ...halves) * perRpm
  const decades = [0.01, 0.1, 1, 10, 100, 1000, 10_000].filter(ten => ten >= low / 1.01 && ten <= high * 1.01)
  /** In the unit that is shown. */
  const y = (half: number) =>
    field.bottom - (Math.log(half / low) / Math.log((high / low) * 1.15)) * (field.bottom - field.top)
  const rates = points.map(one => one.captureFps)
  const [slowest = 1, fastest = 2] = [rates[0], rates.at(-1)]
  const x = (fps: number) =>
    field.left + (Math.log(fps / slowest) / Math.log(fastest / slowest)) * (field.right - field.left)
  const small = 0.86 * fontPx
  const word = (
    at: number,
    baseline: number,
    text: string,
    more: Partial<Shape & { kind: 'text' }>,
  ): Shape => ({
    ...{ kind: 'text', x: at, y: baseline, text, sizePx: small, fill: palette.quiet, anchor: 'middle' },
    ...more,
  })
  const curve = (of: (one: BandAtRate) => number | null, stroke: string, dash?: number[]): Shape[] => {
    const seen = points.flatMap(one => {
      const half = of(one)
      return isFigure(half) ? [{ x: x(one.captureFps), y: y(half * perRpm) }] : []
    })
    const d = seen.map((at, i) => `${i === 0 ? 'M' : 'L'}${at.x.toFixed(2)} ${at.y.toFixed(2)}`).join('')
    return [
      { kind: 'path', d, stroke, strokePx: 2, dash },
      ...seen.map((at): Shape => ({ kind: 'circle', ...at, r: 0.26 * fontPx, fill: stroke })),
    ]
  }
  const last = points.at(-1)
  const ends = [
    { name: 'counting', half: last?.countingHalfWidthRpm ?? null },
    { name: 'fitting', half: last?.fittingHalfWidthRpm ?? null },
  ].flatMap(({ name, half }) => (isFigure(half) ? [{ name, at: y(half * perRpm) }] : []))
  ends.sort((a, b) => a.at - b.at)
  ends.forEach((end, i) => {
    if (i > 0) end.at = Math.max(end.at, ends[i - 1]!.at + 1.2 * fontPx)
  })
  return {
    ...{ widthPx, heightPx, title: heading, paper: palette.paper },
    shapes: [
      ...headed(
        { heading, said: 'What one hit’s band may be expected to be; less is better.' },
        { palette, fontPx, widthPx },
      ),
      ...decades.flatMap((ten): Shape[] => [
        { kind: 'line', x1: field.left, x2: field.right, y1: y(ten), y2: y(ten), stroke: palette.line },
        word(
          field.left - 0.5 * fontPx,
          y(ten) + 0.3 * fontPx,
          `±${digits(ten, Math.max(0, -Math.round(Math.log10(ten))))}`,
          {
            anchor: 'end',
          },
        ),
      ]),
      ...rates.map(fps => word(x(fps), field.bottom + 1.4 * fontPx, digits(fps), {})),
      word((field.left + field.right) / 2, field.bottom + 2.9 * fontPx, 'capture rate, fps', {}),
      word(1.6 * fontPx, (field.top + field.bottom) / 2, `half-width of the band, ${unit}`, {
        upright: true,
      }),
      ...ends.map(({ name, at }) =>
        word(field.right + 0.8 * fontPx, at + 0.3 * fontPx, name, { fill: palette.ink, anchor: 'start' }),
      ),
      ...curve(one => one.countingHalfWidthRpm, palette.second, [6, 4]),
      ...curve(one => one.fittingHalfWidthRpm, palette.first),
    ],
  }
}

const isFigure = (value: number | null): value is number => value !== null && value > 0
