import type { Flag } from '../contract/reading.ts'
import { proposeMishits } from './mishits.ts'
import { type PaddleFigure, paddleFigure } from './paddle-figure.ts'
import type { RatedHit } from './rated-hit.ts'
import { worstFlag } from './worst-flag.ts'

/** A figure that counts its hits instead of naming them: what is kept of a set-up for tables of thousands. */
export type CountedFigure = Omit<PaddleFigure, 'hits'> & { hits: number }

/** All that a table shows of a paddle in a set-up, and what its place and comparisons are computed from. */
export type RatedSetUp = {
  figure: CountedFigure | null
  heldBack: number
  /** Hits in the mean that the rule proposes to leave out. */
  mishits: number
  /** The figure's, or the worst of the hits'. */
  flag: Flag
  /** Rates of the hits in the mean, and of those left out that have one; whole rpm, in order of rate. */
  dots: number[]
  leftOut: number[]
  sessions: number
  lastDay: string | null
}

/** Raised whenever the same hits could give another figure. */
export const ratingVersion = '1'

export function ratedSetUp(hits: readonly RatedHit[]): RatedSetUp {
  const { figure, heldBack } = paddleFigure(hits)
  const inMean = new Set(figure?.hits)
  const [used, out] = [hits.filter(hit => inMean.has(hit.id)), hits.filter(hit => !inMean.has(hit.id))]
  return {
    figure: figure && { ...figure, hits: figure.hits.length },
    heldBack: heldBack.length,
    mishits: proposeMishits(used).length,
    flag: figure?.flag ?? worstFlag(hits).flag,
    dots: wholeRates(used),
    leftOut: wholeRates(out),
    sessions: new Set(hits.map(hit => hit.session)).size,
    lastDay: hits.reduce<string | null>((last, { day }) => (last === null || day > last ? day : last), null),
  }
}

const wholeRates = (hits: readonly RatedHit[]): number[] =>
  hits.flatMap(({ rpm }) => (rpm === null ? [] : [Math.round(rpm)])).toSorted((a, b) => a - b)
