/**
 * How often a reading is right: simulated hits over a grid of what cameras, balls and people do, each read
 * as a whorl.marks/1 document by the same code that reads a person's marks.
 *
 * The rules, set before any result is looked at:
 * - A band is right when it holds the mean rate between the first and the last sighting. A cell is a level of one
 *   factor or of two, with at least 200 clear readings.
 * - Another rate is one more than five of its standard uncertainties and 5 % off.
 * - Errors are held to the Cramér–Rao bound (simulate/bound.ts) wherever they are small enough for it to hold: by
 *   the bound's own figures the axis, and the turn at either end of the hit, are known to 0.1 rad and the rate to
 *   5 %, and the candidate is the right one. How often it is another is a figure of its own.
 * - The bound knows what the document tells and no more: clicks, smears and ticks as they were drawn, and as unknowns
 *   with the law that they are drawn by what nobody is told: outlines (which kind, how often placed), readout, focal
 *   length, decay, where on the ball a line is. The rotation and the places of the marks are unknowns without a law.
 *
 *   npm run bench:accuracy [-- --hits N] [-- --seed S] [-- --json]
 */
import { availableParallelism } from 'node:os'
import { parseArgs } from 'node:util'
import { Worker } from 'node:worker_threads'
import { planTable } from './plan/table.ts'
import { goalsOf } from './simulate/goals.ts'
import type { HitRecord } from './simulate/record.ts'
import { summaryOf } from './simulate/summary.ts'

const { values } = parseArgs({
  options: {
    hits: { type: 'string', default: '24000' },
    seed: { type: 'string', default: '1' },
    json: { type: 'boolean', default: false },
  },
})
const hits = Number(values.hits)
const first = Number(values.seed) * 1_000_000
const workers = availableParallelism()

const begun = performance.now()
const records = (await Promise.all(Array.from({ length: workers }, (_, k) => run(k)))).flat()
const seconds = (performance.now() - begun) / 1000
report(records)

function run(k: number): Promise<HitRecord[]> {
  return new Promise((resolve, reject) => {
    const found: HitRecord[] = []
    // A worker does not inherit tsx: it must learn to read TypeScript before it can load its file.
    const url = JSON.stringify(new URL('./accuracy-worker.ts', import.meta.url).href)
    const worker = new Worker(`import('tsx/esm/api').then(tsx => (tsx.register(), import(${url})))`, {
      eval: true,
      workerData: { first: first + k, last: first + hits, stride: workers },
    })
    worker.on('message', (bundle: HitRecord[]) => found.push(...bundle))
    worker.on('error', reject)
    worker.on('exit', code =>
      code === 0 ? resolve(found) : reject(new Error(`A worker ended with ${code}.`)),
    )
  })
}

function report(all: HitRecord[]): void {
  const s = summaryOf(all)
  const percent = (x: number) => `${(100 * x).toFixed(2)} %`
  const say = (line: string) => process.stdout.write(`${line}\n`)
  say(
    `${s.hits} hits in ${seconds.toFixed(0)} s on ${workers} threads, median ${s.medianMilliseconds.toFixed(2)} ms a reading`,
  )
  for (const flag of ['clear', 'near-ceiling', 'ambiguous', 'too-few-frames'] as const) {
    say(`  ${flag}: ${all.filter(r => r.flag === flag).length}`)
  }
  say('')
  say('figure                                              measured    target      ')
  for (const { figure, value, shown, target, isMet } of goalsOf(s)) {
    say(
      `${figure.padEnd(52)}${shown(value).padEnd(12)}${target.padEnd(12)}${isMet(value) ? 'met' : 'missed'}`,
    )
  }
  for (const method of ['bearing', 'sphere'] as const) {
    const own = all.filter(r => r.flag === 'clear' && r.method === method)
    const held = own.filter(r => r.covered).length
    say(`band holds the truth, by ${method}: ${percent(held / own.length)} of ${own.length} clear readings`)
  }
  say('Worst cells:')
  for (const { cell, hits: n, coverage } of s.cells.slice(0, 12))
    say(`  ${percent(coverage)} of ${n}: ${cell}`)
  say('Bands that the planner expects, against hits of its set-ups:')
  const planRatio = planTable(100, say)
  if (!values.json) return
  const figures = {
    hits: s.hits,
    coverage: s.coverage,
    worstCellCoverage: s.worstCellCoverage,
    wrongAliasCalledClear: s.wrongAliasCalledClear,
    rmsOverBoundBearing: s.bearing.rms,
    rmsOverBoundSphere: s.sphere.rms,
    bandOverCounting: s.bandOverCounting,
    planBandOverSimulated: planRatio,
  }
  say(JSON.stringify({ schema: 'whorl.bench/1', bench: 'accuracy', figures }))
}
