/**
 * How often ratings are right: simulated paddles, each with a known true spin, rated and compared by the
 * same code that the program uses. The true spins are drawn wide and even, so that "nothing else known"
 * holds and a stated probability can be held against how often it comes true.
 *
 *   npx tsx tests/bench/ratings.ts [--paddles N] [--json]
 */
import { parseArgs } from 'node:util'
import { seededRandom } from '../../core/numerics/seeded-random.ts'
import { comparePairs } from '../../core/ratings/compare.ts'
import { proposeMishits } from '../../core/ratings/mishits.ts'
import { paddleFigure } from '../../core/ratings/paddle-figure.ts'
import { rankBands } from '../../core/ratings/rank-bands.ts'
import { bandCoverage, differing, hardlyDiffering, sharing } from '../core/ratings/band-coverage.ts'
import { ratedHit } from '../core/ratings/sample-hits.ts'
import { chanceOf } from './simulate/random.ts'

const { values } = parseArgs({
  options: { paddles: { type: 'string', default: '6000' }, json: { type: 'boolean', default: false } },
})
const paddles = Number(values.paddles)
const chance = chanceOf(7)
const say = (line: string) => process.stdout.write(`${line}\n`)
const [between, own, middle] = [30, 10, 2000]

type Camera = { name: string; shared: number; error: number }
const cameraOf = (name: string, shared: number): Camera => ({ name, shared, error: chance.normal(shared) })

/** The figure of a paddle whose hits scatter about its true spin. */
function figureOf(truth: number, hits: number, camera: Camera, scatter = between) {
  const sample = Array.from({ length: hits }, () =>
    ratedHit({
      rpm: (truth + chance.normal(scatter)) * (1 + camera.error) + chance.normal(own),
      standardUncertaintyRpm: own,
      sharedRelativeUncertainty: camera.shared,
      camera: camera.name,
    }),
  )
  return paddleFigure(sample).figure!
}

const cells = 10
const [leastScatter, mostScatter] = [15, 150]

/** Two paddles so far apart, filmed by one camera or two, and the probability that the first spins more. */
function probabilityFor(
  apart: number,
  [first, second]: [number, number],
  camera: Filmed,
  scatter: () => number,
) {
  const one = cameraOf('Kestrel', camera.shared)
  const other = camera.cameras === 'one' ? one : cameraOf('Merlin', camera.shared)
  const pair = [
    figureOf(middle + apart, first, one, scatter()),
    figureOf(middle, second, other, scatter()),
  ] as const
  return comparePairs([pair])[0]!.probabilityAOverB!
}
type Filmed = { shared: number; cameras: 'one' | 'two' }

/**
 * The most that a probability of A over B, gathered in tenths, differs from how often A truly was above,
 * in points (positive: too sure of A); tenths with fewer than 1500 pairs are left out. Differences are
 * even and each paddle's scatter even in its logarithm: with one fixed scatter, a tenth would choose the pairs whose
 * few hits show too little or too much of it.
 */
function calibration(hits: [number, number], filmed: Filmed): number {
  const scatter = () => Math.exp(chance.between(Math.log(leastScatter), Math.log(mostScatter)))
  const tenths = Array.from({ length: cells }, () => ({ pairs: 0, said: 0, came: 0 }))
  const reach =
    3 * Math.SQRT2 * Math.hypot(mostScatter / Math.sqrt(Math.min(...hits)), filmed.shared * middle)
  for (let i = 0; i < 20 * paddles; i++) {
    const apart = chance.between(-reach, reach)
    const said = probabilityFor(apart, hits, filmed, scatter)
    const tenth = tenths[Math.min(cells - 1, Math.floor(said * cells))]!
    tenth.pairs++
    tenth.said += said
    if (apart > 0) tenth.came++
  }
  const off = tenths.filter(t => t.pairs >= 1500).map(t => (100 * (t.said - t.came)) / t.pairs)
  return off.toSorted((a, b) => Math.abs(b) - Math.abs(a))[0]!
}

/** Of equal paddles, the most that the share with a probability below q differs from q, in points. */
function evenness(hits: [number, number], filmed: Filmed): number {
  const said = Array.from({ length: 5 * paddles }, () => probabilityFor(0, hits, filmed, () => between))
  const off = Array.from({ length: 19 }, (_, i) => (i + 1) / 20).map(
    q => 100 * (said.filter(p => p < q).length / said.length - q),
  )
  return off.toSorted((a, b) => Math.abs(b) - Math.abs(a))[0]!
}

/** Per cent of rank bands that hold the true rank, over all paddles of many small seasons; and their width. */
function rankCoverage(count: number, hits: number, spread: number, shared: number) {
  let [held, wide, all] = [0, 0, 0]
  for (let season = 0; season < Math.ceil(paddles / 3 / count); season++) {
    const camera = cameraOf('Kestrel', shared)
    const truths = Array.from({ length: count }, () => middle + chance.normal(spread))
    const bands = rankBands(
      truths.map(truth => figureOf(truth, hits, camera)),
      seededRandom(season),
      400,
    )
    for (const [i, { low, high }] of bands.entries()) {
      const rank = 1 + truths.filter(truth => truth > truths[i]!).length
      if (low <= rank && rank <= high) held++
      wide += high - low + 1
      all++
    }
  }
  return { coverage: (100 * held) / all, width: wide / all }
}

/** Per cent of paddles with honest hits in which the rule proposes a mishit. */
function falseMishits(hits: number): number {
  let proposed = 0
  for (let i = 0; i < paddles; i++) {
    const sample = Array.from({ length: hits }, () =>
      ratedHit({ rpm: middle + chance.normal(between), standardUncertaintyRpm: own }),
    )
    if (proposeMishits(sample).length > 0) proposed++
  }
  return (100 * proposed) / paddles
}

const figures: Record<string, number> = {}
const put = (name: string, value: number, words: string) => {
  figures[name] = Number(value.toFixed(2))
  say(`${words}: ${value.toFixed(2)}`)
}
for (const cell of [...differing, ...hardlyDiffering, ...sharing]) {
  const { hits, between, uneven, shared } = cell
  put(
    `bandCoverage_${hits}hits_between${between}_uneven${uneven}_shared${shared}`,
    bandCoverage(cell, paddles),
    `band of ${hits} hits that differ by ${between} rpm, uneven by ${uneven}, shared ${shared}: holds the truth in per cent`,
  )
}
for (const hits of [
  [2, 2],
  [3, 3],
  [3, 10],
  [10, 10],
] as [number, number][])
  for (const filmed of [
    { shared: 0, cameras: 'one' },
    { shared: 0.01, cameras: 'one' },
    { shared: 0.01, cameras: 'two' },
  ] as const) {
    const name = `${hits.join('and')}hits_shared${filmed.shared}_${filmed.cameras}`
    const words = `${hits.join(' and ')} hits, shared ${filmed.shared}, ${filmed.cameras} camera`
    put(`calibration_${name}`, calibration(hits, filmed), `P(A over B), ${words}: off by points at most`)
    put(
      `evenness_${name}`,
      evenness(hits, filmed),
      `P(A over B) of equal paddles, ${words}: uneven by points at most`,
    )
  }
for (const spread of [1, 30, 150])
  for (const hits of [3, 10])
    for (const [shared, count] of [
      [0, 20],
      [0.01, 20],
      [0, 5],
    ] as const) {
      const { coverage: held, width } = rankCoverage(count, hits, spread, shared)
      put(
        `rankCoverage_${count}paddles_${hits}hits_spread${spread}_shared${shared}`,
        held,
        `rank bands of ${count} paddles, spread ${spread} rpm, ${hits} hits, shared ${shared}: hold in per cent (mean width ${width.toFixed(1)})`,
      )
    }
for (const hits of [5, 10, 20])
  put(
    `falseMishits_${hits}hits`,
    falseMishits(hits),
    `honest paddles of ${hits} hits with a proposed mishit, per cent`,
  )
if (values.json) say(JSON.stringify({ schema: 'whorl.bench/1', bench: 'ratings', figures }))
