import type { KnownMean } from './known-mean.ts'
import type { CountedFigure } from './rated-set-up.ts'

/**
 * The figures as means of paddles, for comparing. A single hit cannot tell how the next one would differ:
 * it borrows the scatter of a hit that the other paddles show (pooled, each by its degrees of freedom).
 * Where no paddle shows any, a single hit's own part is infinite: it says nothing of its paddle.
 */
export function withBorrowedSpread(
  figures: readonly (KnownMean & Pick<CountedFigure, 'hits'>)[],
): KnownMean[] {
  let [squares, degreesOfFreedom] = [0, 0]
  for (const { hits, own } of figures) {
    squares += (hits - 1) * hits * own.standardUncertaintyRpm ** 2
    degreesOfFreedom += hits - 1
  }
  const scatter = degreesOfFreedom > 0 ? Math.sqrt(squares / degreesOfFreedom) : Number.POSITIVE_INFINITY
  return figures.map(({ meanRpm, own, shared, hits }) => ({
    meanRpm,
    shared,
    own:
      hits > 1
        ? own
        : {
            standardUncertaintyRpm: Math.max(own.standardUncertaintyRpm, scatter),
            degreesOfFreedom: Math.max(1, degreesOfFreedom),
          },
  }))
}
