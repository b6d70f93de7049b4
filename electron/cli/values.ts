import { WhorlError } from '../../core/contract/problem.ts'
import type { PercentileDefinition } from '../../core/contract/rating-rules.ts'
import type { Tier } from '../../core/ratings/tiers.ts'
import { secondsOfText } from '../../core/units/duration.ts'
import { metresOfText } from '../../core/units/length.ts'
import { metresPerSecondOfText } from '../../core/units/speed.ts'

/** Readers of option values. Each takes the text and the option's name, and throws `usage` with the way out. */

const reader =
  <T>(expected: string, read: (text: string) => T | null) =>
  (text: string, option: string): T => {
    const value = read(text)
    if (value !== null) return value
    throw new WhorlError('usage', { what: `${option} got “${text}”.`, hint: `It takes ${expected}.` })
  }

export const text = reader('a name', given => (given.trim() === '' ? null : given))

export const positiveNumber = reader('a number above 0', given => {
  const value = /^\d*\.?\d+(e[+-]?\d+)?$/i.test(given) ? Number(given) : 0
  return value > 0 && Number.isFinite(value) ? value : null
})

export const frameNumber = reader('a frame, counted from 0', given =>
  /^\d{1,9}$/.test(given) ? Number(given) : null,
)

export const portNumber = reader('a port from 0 to 65535 (0: any that is free)', given =>
  /^\d{1,5}$/.test(given) && Number(given) <= 65535 ? Number(given) : null,
)

/** T of the command line. */
export const durationSeconds = reader('a time above 0 as 1/2000, 0.5ms or 0.0005', secondsOfText)

/** L of the command line. */
export const lengthMetres = reader('a length above 0 as 74mm, 2.9in, 6ft or 0.074', metresOfText)

/** V of the command line. */
export const speedMetresPerSecond = reader('a speed above 0 as 15m/s, 34mph or 55km/h', metresPerSecondOfText)

export const angleDegrees = reader('an angle from 0 to below 180 as 60 or 60°', given => {
  const [, figure] = /^(\d*\.?\d+)\s*(°|deg)?$/.exec(given.trim()) ?? []
  return figure !== undefined && Number(figure) < 180 ? Number(figure) : null
})

/** A part of something: 0.002 or 0.2%. */
export const share = reader('a share as 0.002 or 0.2%', given => {
  const [, figure, percent] = /^(\d*\.?\d+)\s*(%?)$/.exec(given.trim()) ?? []
  return figure === undefined ? null : Number(figure) / (percent ? 100 : 1)
})

export const pictureSize = reader('a width and a height as 1920x1080', (given): [number, number] | null => {
  const [, width, height] = /^(\d+)\s*[x×]\s*(\d+)$/i.exec(given.trim()) ?? []
  return width === undefined ? null : [Number(width), Number(height)]
})

/** One of some words. */
export const oneOf = <T extends string>(words: readonly T[]) =>
  reader(
    `one of ${words.join(', ')}`,
    given => words.find(word => word === given.trim().toLowerCase()) ?? null,
  )

const definitions: readonly PercentileDefinition[] = ['strictly-below', 'mid-rank', 'inclusive']
export const percentileDefinition = reader(
  `one of ${definitions.join(', ')}`,
  given => definitions.find(one => one === given) ?? null,
)

/** A tier and where it begins. */
export const cutOff = reader('a name and a rate as high=2000', (given): Tier | null => {
  const [, name, rpm] = /^(.*\S)\s*=\s*(\d+(?:\.\d+)?)$/.exec(given.trim()) ?? []
  return name === undefined ? null : { name, fromRpm: Number(rpm) }
})

/** Two names with an equals sign between them; the second may be empty. */
export const repeatedPair = reader('two names as “Heron 14=Heron-14”', (given): [string, string] | null => {
  const at = given.indexOf('=')
  return at < 1 ? null : [given.slice(0, at).trim(), given.slice(at + 1).trim()]
})
