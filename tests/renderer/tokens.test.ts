import { readFileSync } from 'node:fs'
import { join } from 'node:path'
import { describe, expect, it } from 'vitest'

const css = readFileSync(join(import.meta.dirname, '../../renderer/tokens.css'), 'utf8')

/** The colours of one theme by name, references followed. */
function coloursOf(theme: 'light' | 'dark'): Map<string, string> {
  const block = css.slice(css.indexOf(`[data-theme="${theme}"]`)).split('}')[0]!
  const own = new Map(
    [...block.matchAll(/--([\w-]+):\s*([^;]+);/g)].map(([, name, value]) => [name!, value!]),
  )
  for (const [name, value] of own) {
    const referred = /^var\(--([\w-]+)\)$/.exec(value)?.[1]
    if (referred) own.set(name, own.get(referred)!)
  }
  return own
}

/**
 * Relative luminance of an oklch() colour. Oklab to linear sRGB: B. Ottosson, "A perceptual color space for
 * image processing" (2020), as taken over by CSS Color 4, 10.8. Luminance: WCAG 2.2, "relative luminance".
 */
function luminance(oklch: string): number {
  const [l, c, h] = /oklch\(([\d.]+) ([\d.]+) ([\d.]+)\)/.exec(oklch)!.slice(1).map(Number) as [
    number,
    number,
    number,
  ]
  const a = c * Math.cos((h * Math.PI) / 180)
  const b = c * Math.sin((h * Math.PI) / 180)
  const long = (l + 0.3963377774 * a + 0.2158037573 * b) ** 3
  const medium = (l - 0.1055613458 * a - 0.0638541728 * b) ** 3
  const short = (l - 0.0894841775 * a - 1.291485548 * b) ** 3
  const inGamut = (value: number) => Math.min(1, Math.max(0, value))
  const red = inGamut(4.0767416621 * long - 3.3077115913 * medium + 0.2309699292 * short)
  const green = inGamut(-1.2684380046 * long + 2.6097574011 * medium - 0.3413193965 * short)
  const blue = inGamut(-0.0041960863 * long - 0.7034186147 * medium + 1.707614701 * short)
  return 0.2126 * red + 0.7152 * green + 0.0722 * blue
}

/** Contrast ratio, WCAG 2.2: (lighter + 0.05) / (darker + 0.05). */
function contrast(one: string, other: string): number {
  const [low, high] = [luminance(one), luminance(other)].sort((a, b) => a - b) as [number, number]
  return (high + 0.05) / (low + 0.05)
}

describe('contrast', () => {
  it('is 21 for black on white and 1 for a colour on itself (WCAG 2.2, definition)', () => {
    expect(contrast('oklch(0 0 0)', 'oklch(1 0 0)')).toBeCloseTo(21, 2)
    expect(contrast('oklch(0.6 0.13 165)', 'oklch(0.6 0.13 165)')).toBe(1)
  })
})

describe.each(['light', 'dark'] as const)('%s tokens', theme => {
  const colours = coloursOf(theme)
  const against = (name: string, ground: string) => contrast(colours.get(name)!, colours.get(ground)!)

  it.each([
    ['ink', 'paper'],
    ['ink', 'paper-raised'],
    ['ink', 'accent-quiet'],
    ['ink-quiet', 'paper'],
    ['ink-quiet', 'paper-raised'],
    ['ink-quiet', 'accent-quiet'],
    ['problem', 'paper'],
    ['on-accent', 'accent'],
    ['on-surround', 'surround'],
  ])('%s on %s can be read: 4.5 to 1 (WCAG 2.2, 1.4.3)', (name, ground) => {
    expect(against(name, ground)).toBeGreaterThanOrEqual(4.5)
  })

  it.each([
    'line-strong',
    'accent',
    'orange',
    'sky',
    'green',
    'yellow',
    'blue',
    'vermilion',
    'purple',
    'flag-clear',
    'flag-near-ceiling',
    'flag-ambiguous',
    'flag-too-few-frames',
  ])('%s can be seen on paper: 3 to 1 (WCAG 2.2, 1.4.11)', name => {
    expect(against(name, 'paper')).toBeGreaterThanOrEqual(3)
  })
})

it('gives both themes the same names', () => {
  expect([...coloursOf('dark').keys()].sort()).toEqual([...coloursOf('light').keys()].sort())
})
