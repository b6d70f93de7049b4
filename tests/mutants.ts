/**
 * `npm run mutants -- [numerics | spin] [--part K/N] [--seed S] [--files A,B]`: spoils a room of core in every
 * way Stryker knows and sees whether its tests notice. A whole room takes hours: `--part 1/20` takes a fair
 * twentieth, drawn by seed out of all top-level declarations of the room. The twenty parts of one seed hold each
 * mutant once.
 */
import { readdirSync, readFileSync } from 'node:fs'
import { join } from 'node:path'
import { parseArgs } from 'node:util'
import { Stryker } from '@stryker-mutator/core'
import { seededRandom } from '../core/numerics/seeded-random.ts'

/** A stretch of lines, from 1, both ends in it. */
type Stretch = { file: string; from: number; to: number }

/**
 * The top-level declarations of a file, each with the comment before it: a stretch begins where text at the margin
 * follows an empty line. No statement reaches over such a place, so that no mutant is cut in two.
 */
function declarationsOf(file: string): Stretch[] {
  const lines = readFileSync(file, 'utf8').split('\n')
  const starts = lines.flatMap((line, i) => (i === 0 || (lines[i - 1] === '' && /^\S/.test(line)) ? [i] : []))
  return starts.map((start, i) => ({ file, from: start + 1, to: starts[i + 1] ?? lines.length }))
}

/** Deals the stretches, in chance order, to parts of about as many lines each; answers the part asked for. */
function partOf(stretches: Stretch[], part: number, parts: number, seed: number): Stretch[] {
  const random = seededRandom(seed)
  const drawn = stretches
    .map(stretch => ({ stretch, place: random() }))
    .sort((a, b) => a.place - b.place)
    .map(({ stretch }) => stretch)
  const hands = Array.from({ length: parts }, () => ({ lines: 0, stretches: [] as Stretch[] }))
  for (const stretch of drawn) {
    const hand = hands.reduce((least, other) => (other.lines < least.lines ? other : least))
    hand.lines += stretch.to - stretch.from + 1
    hand.stretches.push(stretch)
  }
  return hands[part - 1]!.stretches
}

const { values, positionals } = parseArgs({
  allowPositionals: true,
  options: {
    part: { type: 'string', default: '1/1' },
    seed: { type: 'string', default: '1' },
    files: { type: 'string' },
  },
})
const room = positionals[0] ?? 'numerics'
const [part = 1, parts = 1] = values.part.split('/').map(Number)
const folder = join('core', room)
const files = readdirSync(folder, { recursive: true, encoding: 'utf8' })
  .filter(name => name.endsWith('.ts'))
  .filter(name => values.files === undefined || values.files.split(',').includes(name))
  .sort()
const stretches = partOf(
  files.flatMap(name => declarationsOf(join(folder, name))),
  part,
  parts,
  Number(values.seed),
)
process.env.MUTANTS_ROOM = room
const results = await new Stryker({
  configFile: 'tests/mutants.json',
  plugins: ['@stryker-mutator/vitest-runner', './tests/mutants.reporter.mjs'],
  mutate: stretches.map(({ file, from, to }) => `${file}:${from}-${to}`),
}).runMutationTest()
const counted = (...states: string[]) => results.filter(({ status }) => states.includes(status)).length
const noticed = counted('Killed', 'Timeout')
const all = noticed + counted('Survived', 'NoCoverage')
console.log(
  `core/${room}, part ${part} of ${parts}, seed ${values.seed}: ${noticed} of ${all} noticed, ${((100 * noticed) / all).toFixed(1)} %`,
)
