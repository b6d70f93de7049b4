import { quantile } from '../numerics/quantile.ts'
import { randomStudentT } from '../numerics/random-student-t.ts'
import type { Random } from '../numerics/seeded-random.ts'
import { bandLevel } from '../spin/band.ts'
import { pauleMandel } from './between-hit-variance.ts'
import type { KnownMean } from './known-mean.ts'
import { weightedMean } from './weighted-mean.ts'

export type RankBand = { low: number; high: number }

const certain = Number.POSITIVE_INFINITY

/**
 * The places that each mean may truly have among all, 1 for the highest, each band with 95 %.
 *
 * A parametric bootstrap: all true means are drawn together, again and again, and ranked. They are drawn
 * about the means as shrunk towards the middle of all, by how much of the spread between paddles is but
 * their uncertainty: means as they were found lie further apart than the true ones, and ranks drawn about
 * them miss the true place of near ties too often. Own errors follow Student's t; a source that several share
 * is drawn once and moves them together. It comes in slices, one a draw, each yielding the share that is done.
 *
 * Source: N. Laird and T. Louis, Journal of Educational Statistics 14 (1989) 29.
 */
export function* rankBandsInSlices(
  means: readonly KnownMean[],
  random: Random,
  draws = 1000,
): Generator<number, RankBand[]> {
  if (means.length < 2) return means.map(() => ({ low: 1, high: 1 }))
  const places = means.map(() => new Uint32Array(draws))
  const drawTruths = truthsOf(means, random)
  for (let draw = 0; draw < draws; draw++) {
    const truths = drawTruths()
    const sorted = Float64Array.from(truths).sort()
    for (const [i, truth] of truths.entries()) places[i]![draw] = means.length - placeIn(sorted, truth)
    yield draw / draws
  }
  const tail = (1 - bandLevel) / 2
  const bands: RankBand[] = []
  for (const drawn of places) {
    bands.push({ low: Math.floor(quantile(drawn, tail)), high: Math.ceil(quantile(drawn, 1 - tail)) })
    yield 1
  }
  return bands
}

/** The same in one go. */
export function rankBands(means: readonly KnownMean[], random: Random, draws?: number): RankBand[] {
  return allOf(rankBandsInSlices(means, random, draws))
}

/** Runs a piece of work that comes in slices to its end. */
export function allOf<T>(slices: Generator<unknown, T>): T {
  let step = slices.next()
  while (!step.done) step = slices.next()
  return step.value
}

/** How many of the sorted values lie below one of them, by halving. */
function placeIn(sorted: Float64Array, value: number): number {
  let [low, high] = [0, sorted.length - 1]
  while (low < high) {
    const middle = (low + high) >> 1
    if (sorted[middle]! < value) low = middle + 1
    else high = middle
  }
  return low
}

/** Draws of all true means together, rpm. */
function truthsOf(means: readonly KnownMean[], random: Random): () => number[] {
  const { middle, sd } = spreadOf(means)
  const shrunk = means.map(({ meanRpm, own }) => {
    const u = own.standardUncertaintyRpm
    const kept = Number.isFinite(u) ? sd ** 2 / (sd ** 2 + u ** 2) : 0
    return {
      centre: middle + kept * (meanRpm - middle),
      scale: 1 / Math.hypot(1 / sd, 1 / u),
      degreesOfFreedom: Number.isFinite(u) ? own.degreesOfFreedom : certain,
    }
  })
  return () => {
    const sources = new Map<string, number>()
    const drawn = (source: string) => {
      const known = sources.get(source) ?? randomStudentT(random, certain)
      sources.set(source, known)
      return known
    }
    return shrunk.map(({ centre, scale, degreesOfFreedom }, i) =>
      means[i]!.shared.reduce(
        (sum, part) => sum + part.standardUncertaintyRpm * drawn(part.source),
        centre + scale * randomStudentT(random, degreesOfFreedom),
      ),
    )
  }
}

/** The middle of the true means and their spread, after Paule and Mandel; never quite none, so that chance ranks equals. */
function spreadOf(means: readonly KnownMean[]): { middle: number; sd: number } {
  const known = means.filter(({ own }) => Number.isFinite(own.standardUncertaintyRpm))
  if (known.length < 2) return { middle: means[0]!.meanRpm, sd: 1 }
  const values = known.map(({ meanRpm }) => meanRpm)
  const variances = known.map(({ own }) => own.standardUncertaintyRpm ** 2)
  const tau2 = pauleMandel(values, variances)
  const { mean } = weightedMean(
    values,
    variances.map(v => 1 / (v + tau2)),
  )
  return { middle: mean, sd: Math.max(Math.sqrt(tau2), 0.1 * Math.sqrt(Math.min(...variances))) }
}
