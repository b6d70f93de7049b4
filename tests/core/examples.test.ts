import { readdirSync, readFileSync } from 'node:fs'
import { join } from 'node:path'
import { expect, it } from 'vitest'

const core = join(import.meta.dirname, '../../core')

/** `@example CODE // RESULT` in core's doc comments: the code is run with the file's own exports in reach. */
const examples = readdirSync(core, { recursive: true, encoding: 'utf8' })
  .filter(file => file.endsWith('.ts'))
  .flatMap(file =>
    [...readFileSync(join(core, file), 'utf8').matchAll(/@example (.+?) \/\/ (.+)/g)].map(
      ([, code, result]): [string, string, string] => [code!, result!.replaceAll('…', ''), file],
    ),
  )

const evaluated = (code: string, within: Record<string, unknown> = {}): unknown =>
  new Function(...Object.keys(within), `return (${code})`)(...Object.values(within))

/** To the digits that the comment shows; a result without a decimal point is meant exactly. */
function shown(value: unknown, decimals: number): unknown {
  if (typeof value === 'number') return Number(value.toFixed(decimals))
  if (Array.isArray(value)) return value.map(each => shown(each, decimals))
  if (typeof value !== 'object' || value === null) return value
  return Object.fromEntries(Object.entries(value).map(([key, each]) => [key, shown(each, decimals)]))
}

it('finds the examples', () => {
  expect(examples.length).toBeGreaterThan(15)
})

it.each(examples)('%s is %s, as %s says', async (code, result, file) => {
  const decimals = Math.max(...[...result.matchAll(/\.(\d+)/g)].map(([, digits]) => digits!.length))
  const digits = Number.isFinite(decimals) ? decimals : 9
  const module: Record<string, unknown> = await import(join(core, file))
  expect(shown(evaluated(code, module), digits)).toEqual(shown(evaluated(result), digits))
})
