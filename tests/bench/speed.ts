/**
 * `npm run bench`: what a person waits for, as one table, each thing side by side with a plain tool at the
 * same work, in one run. Below 1 is quicker than the plain tool.
 *
 *   --quick      only what can be measured on a busy machine
 *   --check      ends with 1, and the names, where a ratio is over 30 % worse than in ratios.json
 *   --keep       writes the ratios of this run there
 *   --only NAME  one line
 *   --json       ends with one whorl.bench/1 document
 */
import { readFileSync, writeFileSync } from 'node:fs'
import { availableParallelism, cpus } from 'node:os'
import { fileURLToPath } from 'node:url'
import { parseArgs } from 'node:util'
import { clips } from './speed/clips.ts'
import { exports } from './speed/exports.ts'
import { fits } from './speed/fits.ts'
import { programs } from './speed/programs.ts'
import type { Line, Sides } from './speed/side-by-side.ts'
import { store } from './speed/store.ts'

type Kept = { date: string; machine: string; ratios: Record<string, number> }

const worse = 1.3
const keptFile = fileURLToPath(new URL('./ratios.json', import.meta.url))
const kept = JSON.parse(readFileSync(keptFile, 'utf8')) as Kept
const { values } = parseArgs({
  options: {
    quick: { type: 'boolean' },
    check: { type: 'boolean' },
    keep: { type: 'boolean' },
    only: { type: 'string' },
    json: { type: 'boolean' },
  },
})
// Fits come first: nothing else has warmed or filled this process then.
const lines = [...fits, ...store, ...exports, ...clips, ...programs].filter(
  line => (!values.quick || line.isQuick) && (values.only === undefined || line.name === values.only),
)
const measured: Record<string, Sides> = {}

const timeText = (seconds: number) =>
  seconds >= 1 ? `${seconds.toFixed(2)} s` : `${(1000 * seconds).toPrecision(3)} ms`
const say = (line: string) => process.stdout.write(`${line}\n`)
const tell = ({ name, what, beside }: Line, { ours, plain, ratio }: Sides) =>
  say(`| ${name} | ${what} | ${timeText(ours)} | ${beside} | ${timeText(plain)} | ${ratio.toFixed(2)} |`)
const isWorse = ({ name }: Line) => measured[name]!.ratio > worse * (kept.ratios[name] ?? 0)

say('| name | what | Whorl | beside | takes | ratio |\n| --- | --- | --- | --- | --- | --- |')
for (const line of lines) {
  measured[line.name] = await line.measure()
  // Once more before anything is said: what else the machine does may have met one side alone.
  for (let again = 0; again < 2 && values.check && isWorse(line); again++)
    measured[line.name] = await line.measure()
  tell(line, measured[line.name]!)
}

const rounded = (value: number) => Number(value.toPrecision(3))
if (values.keep) {
  const ratios = { ...kept.ratios }
  for (const [name, { ratio }] of Object.entries(measured)) ratios[name] = rounded(ratio)
  const machine = `${availableParallelism()} cores, ${cpus()[0]!.model}`
  const now: Kept = { date: new Date().toISOString().slice(0, 10), machine, ratios }
  writeFileSync(keptFile, `${JSON.stringify(now, null, 2)}\n`)
}
if (values.json) {
  const figures = Object.entries(measured).flatMap(([name, { ours, ratio }]) => [
    [`${name}Seconds`, rounded(ours)],
    [`${name}Ratio`, rounded(ratio)],
  ])
  say(JSON.stringify({ schema: 'whorl.bench/1', bench: 'speed', figures: Object.fromEntries(figures) }))
}
if (values.check) {
  const bad = lines.filter(isWorse)
  for (const { name } of bad)
    say(
      `${name}: ${measured[name]!.ratio.toFixed(2)}, over 30 % worse than ${kept.ratios[name]} (ratios.json)`,
    )
  process.exitCode = bad.length > 0 ? 1 : 0
}
