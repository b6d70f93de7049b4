import { parser } from 'sax'
import { describe, expect, it } from 'vitest'
import {
  accentNameSchema,
  type Look,
  numberFormSchema,
  spinUnitSchema,
  usualLook,
} from '../../../core/contract/publish.ts'
import type { Flag } from '../../../core/contract/reading.ts'
import { accentFaults } from '../../../core/picture/accent-faults.ts'
import { bandByRate } from '../../../core/picture/band-by-rate.ts'
import { clipPace, paceNote } from '../../../core/picture/clip-pace.ts'
import { contrast, linearOf, type Sight, seenAs, sights } from '../../../core/picture/colour-sight.ts'
import { difference } from '../../../core/picture/difference.ts'
import { figuresIn } from '../../../core/picture/figure-text.ts'
import { hitsStrip } from '../../../core/picture/hits-strip.ts'
import { paletteOf } from '../../../core/picture/look.ts'
import { paddleDots } from '../../../core/picture/paddle-dots.ts'
import { percentileBars } from '../../../core/picture/percentile-bars.ts'
import { ranking } from '../../../core/picture/ranking.ts'
import type { Scene, Shape } from '../../../core/picture/scene.ts'
import { svgOf } from '../../../core/picture/svg-of.ts'
import { textWidth } from '../../../core/picture/text-width.ts'
import { turnedStrip } from '../../../core/picture/turned-strip.ts'
import { sampleReading } from '../../electron/store/sample-reading.ts'

const hostile = [
  '<script>alert(1)</script>',
  'W'.repeat(200),
  'מחבט בדיקה',
  'مضرب الاختبار',
  '🏓🏓🏓 three bats 👩‍👩‍👧',
  '\u202eraboP \u0000\u0007 ]]> & "quotes\'',
  'half a pair \ud83c',
]
const flags: Flag[] = ['clear', 'near-ceiling', 'ambiguous', 'too-few-frames']
const rows = hostile.map((paddle, i) => ({
  paddle,
  setUp: i % 2 ? 'stock' : 'four grams at three and nine',
  meanRpm: 2300 - 80 * i,
  band: { lowRpm: 2240 - 80 * i, highRpm: 2360 - 80 * i, level: 0.95 },
  dots: [2280 - 80 * i, 2320 - 80 * i],
  leftOut: [2100 - 80 * i],
  rank: i + 1,
  rankBand: { low: i + 1, high: i + 2 },
  flag: flags[i % 4]!,
}))
const pair = { differenceRpm: 80, band: { lowRpm: -10, highRpm: 170, level: 0.95 }, probabilityAOverB: 0.96 }
const reading = sampleReading({ rpm: 2331, band: { lowRpm: 2322, highRpm: 2340, level: 0.95 } })
const rates = [60, 240, 960].map(captureFps => ({
  captureFps,
  fittingHalfWidthRpm: 2400 / captureFps,
  countingHalfWidthRpm: null,
}))
const drawn: [string, (look: Look, widthPx: number) => Scene][] = [
  ['dots', (look, widthPx) => paddleDots(rows, look, { widthPx, heightPx: null })],
  ['dots of 300 px', (look, widthPx) => paddleDots(rows, look, { widthPx, heightPx: 300 })],
  ['ranking', (look, widthPx) => ranking(rows, look, { widthPx, heightPx: null })],
  [
    'percentiles',
    (look, widthPx) =>
      percentileBars(
        hostile[1]!,
        hostile.map((name, i) => ({ name, said: name, percentile: i === 0 ? null : 100 - 15 * i })),
        'the share below',
        look,
        { widthPx, heightPx: null },
      ),
  ],
  ['difference', (look, widthPx) => difference(rows[1]!, rows[2]!, pair, look, { widthPx, heightPx: null })],
  [
    'hits of a session',
    (look, widthPx) =>
      hitsStrip(
        hostile.map((name, i) => ({ name, reading, tiles: i % 2 ? [] : [{ frame: 0, pngBase64: '' }] })),
        '2026-05-31',
        look,
        { widthPx, heightPx: null },
      ),
  ],
  [
    'balls turned back',
    (look, widthPx) =>
      turnedStrip(
        { name: hostile[1]!, reading, window: { fromFrame: 3, toFrame: 40 } },
        [3, 9].map(frame => ({ frame, pngBase64: '', turnedPngBase64: '' })),
        look,
        { widthPx, heightPx: null },
      ),
  ],
  ['rate', (look, widthPx) => bandByRate(rates, 2300, look, { widthPx, heightPx: null })],
]

/** Elements and texts of well-formed XML; a strict parser throws on anything else. */
function readXml(xml: string) {
  const elements: { name: string; attributes: Record<string, string> }[] = []
  const texts: string[] = []
  const strict = parser(true)
  strict.onerror = error => {
    throw error
  }
  strict.onopentag = ({ name, attributes }) =>
    elements.push({ name, attributes: attributes as Record<string, string> })
  strict.ontext = text => texts.push(text)
  strict.write(xml).close()
  return { elements, texts }
}

describe.each(drawn)('the picture of %s', (_, draw) => {
  it('is well-formed SVG without scripts, handlers or anything to fetch, whatever paddles are named', () => {
    const { elements } = readXml(svgOf(draw(usualLook, 800)))
    const names = new Set(elements.map(({ name }) => name))
    for (const name of names)
      expect([
        'svg',
        'title',
        'defs',
        'clipPath',
        'g',
        'rect',
        'line',
        'circle',
        'path',
        'text',
        'image',
      ]).toContain(name)
    for (const { attributes } of elements)
      for (const [name, value] of Object.entries(attributes)) {
        expect(name).not.toMatch(/^on/i)
        if (name === 'href') expect(value).toMatch(/^data:image\/png;base64,/)
      }
  })
  it('is the same bytes every time', () => {
    expect(svgOf(draw({ ...usualLook, theme: 'dark' }, 800))).toBe(
      svgOf(draw({ ...usualLook, theme: 'dark' }, 800)),
    )
  })
  it.each([240, 800, 2400])('holds every text and figure inside its %i px', widthPx => {
    const scene = draw(usualLook, widthPx)
    for (const { low, high } of flat(scene.shapes).flatMap(acrossOf)) {
      expect(low).toBeGreaterThanOrEqual(-0.5)
      expect(high).toBeLessThanOrEqual(scene.widthPx + 0.5)
    }
    for (const y of flat(scene.shapes).flatMap(downOf)) {
      expect(y).toBeGreaterThan(0)
      expect(y).toBeLessThanOrEqual(scene.heightPx)
    }
  })
})

const flat = (shapes: readonly Shape[]): Shape[] =>
  shapes.flatMap(shape => (shape.kind === 'inside' ? flat(shape.shapes) : [shape]))

function acrossOf(shape: Shape): { low: number; high: number }[] {
  if (shape.kind === 'line')
    return [{ low: Math.min(shape.x1, shape.x2), high: Math.max(shape.x1, shape.x2) }]
  if (shape.kind === 'rect') return [{ low: shape.x, high: shape.x + shape.width }]
  if (shape.kind === 'circle') return [{ low: shape.x - shape.r, high: shape.x + shape.r }]
  if (shape.kind !== 'text' || shape.upright) return []
  const width = textWidth(shape.text, shape.sizePx)
  const low = shape.x - { start: 0, middle: width / 2, end: width }[shape.anchor ?? 'start']
  return [{ low, high: low + width }]
}
const downOf = (shape: Shape): number[] => (shape.kind === 'text' ? [shape.y] : [])

it('a name that is markup is shown as it is written', () => {
  const { texts } = readXml(svgOf(paddleDots(rows, usualLook, { widthPx: 3000, heightPx: null })))
  expect(texts.some(text => text.includes('<script>alert(1)</script>'))).toBe(true)
})

describe('colours', () => {
  // Each row must leave white as it is: what a matrix over linear RGB does to white is the sum of its rows.
  it.each(Object.entries(sights))('of the simulation of %s leave white as it is', (_, matrix) => {
    for (const row of matrix) expect(row.reduce((sum, weight) => sum + weight, 0)).toBeCloseTo(1, 5)
  })
  it('have the contrast that WCAG 2.2 works out: 21 for black on white, 4.54 for #767676', () => {
    expect(contrast(linearOf('#000000'), linearOf('#ffffff'))).toBeCloseTo(21, 6)
    expect(contrast(linearOf('#767676'), linearOf('#ffffff'))).toBeCloseTo(4.54, 2)
  })
  describe.each(accentNameSchema.options)('of the pair %s', accents => {
    describe.each(['light', 'dark'] as const)('on %s paper', theme => {
      const { paper, ink, quiet, first, second, onFirst, flags: hues } = paletteOf({ theme, accents })
      // 4.5:1 for text, 3:1 for what must be seen: WCAG 2.2, 1.4.3 and 1.4.11.
      it('let text be read and figures be seen', () => {
        for (const hue of [ink, quiet]) expect(contrast(linearOf(hue), linearOf(paper!))).toBeGreaterThan(4.5)
        expect(contrast(linearOf(onFirst), linearOf(first))).toBeGreaterThan(4.5)
        for (const hue of [first, second, ...Object.values(hues)])
          expect(contrast(linearOf(hue), linearOf(paper!))).toBeGreaterThan(3)
        expect(accentFaults({ theme, accents })).toEqual([])
      })
      it.each(Object.keys(sights) as Sight[])('keep two paddles apart for %s', sight => {
        const [a, b] = [seenAs(sight, first), seenAs(sight, second)]
        expect(contrast(a, b)).toBeGreaterThan(1.8)
        for (const hue of [a, b]) expect(contrast(hue, seenAs(sight, paper!))).toBeGreaterThan(2.5)
      })
    })
  })
  // Red and green of like lightness: what eyes that lack green mix up most (common practice, no source).
  it('of a person’s own are said to look alike where they do', () => {
    const faults = accentFaults({ theme: 'light', accents: { first: '#c62828', second: '#5d7f00' } })
    expect(faults.join(' ')).toMatch(/the same .*lack green.*grey print/)
  })
  it('of a person’s own are said to be faint where they are', () => {
    const own = { first: '#1b2328', second: '#fff3c0' }
    expect(accentFaults({ theme: 'light', accents: own })).toEqual([
      'The second colour is hard to see on this paper.',
    ])
    expect(accentFaults({ theme: 'dark', accents: own })[0]).toContain('first')
  })
})

describe.each(numberFormSchema.options)('figures as %s', numbers => {
  it.each(spinUnitSchema.options)(
    'and in %s stand on every scale, and none is left in another form',
    unit => {
      const look: Look = { ...usualLook, figures: { numbers, unit } }
      const drawing = paddleDots([{ ...rows[1]!, paddle: 'Heron' }], look, { widthPx: 1600, heightPx: null })
      const words = drawing.shapes.flatMap(shape => (shape.kind === 'text' ? [shape.text] : []))
      const { unit: word } = figuresIn(look.figures)
      expect(words).toContain(`spin, ${word}`)
      const sign = numbers.endsWith('comma') ? '.' : ','
      for (const text of words.filter(each => /^[\d.,\u202f]+$/.test(each)))
        expect(text.replace(/\u202f/g, '').includes(sign)).toBe(false)
    },
  )
})

describe('the pace of a clip', () => {
  it.each([
    // 240 fps eight times slower is 30 a second: every player keeps up with that.
    [240, 8, 'mp4', { fps: 30, repeats: 1, slowed: 8 }],
    // 240 in real time would be 240 a second; at 60 every frame is shown, so it is four times slower.
    [240, 1, 'mp4', { fps: 60, repeats: 1, slowed: 4 }],
    // 120 twenty times slower is 6 a second: each frame four times makes 24.
    [120, 20, 'mp4', { fps: 24, repeats: 4, slowed: 20 }],
    [240, 8, 'gif', { fps: 25, repeats: 1, slowed: 9.6 }],
    [240, 16, 'gif', { fps: 15, repeats: 1, slowed: 16 }],
    [240, 4, 'webp', { fps: 50, repeats: 1, slowed: 4.8 }],
  ] as const)('of %i fps, %i times slower, as %s', (captureFps, slowed, format, pace) => {
    expect(clipPace(captureFps, slowed, format)).toEqual(pace)
  })
  it('is said where it is not the one that was asked for, and only there', () => {
    expect(paceNote(clipPace(240, 1, 'mp4'), 1, 'mp4')).toBe(
      'Slowed 4 times instead of 1: MP4 shows at most 60 pictures a second, and every frame is shown.',
    )
    expect(paceNote(clipPace(240, 8, 'mp4'), 8, 'mp4')).toBeNull()
  })
})
