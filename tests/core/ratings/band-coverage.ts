import { seededRandom } from '../../../core/numerics/seeded-random.ts'
import { paddleFigure } from '../../../core/ratings/paddle-figure.ts'
import { ratedHit } from './sample-hits.ts'

export type Cell = { hits: number; between: number; uneven: number; shared: number }
const truth = 2300
const own = 10

/**
 * Per cent of simulated paddles whose band holds the truth. Hits differ by `between` rpm, each reading errs
 * by about 10 rpm (a factor up to `uneven` more or less), one camera's relative error moves all of them.
 */
export function bandCoverage({ hits, between, uneven, shared }: Cell, paddles = 4000): number {
  const random = seededRandom(hits * 1000 + between * 10 + uneven)
  const normal = () => Math.sqrt(-2 * Math.log(1 - random())) * Math.cos(2 * Math.PI * random())
  let held = 0
  for (let paddle = 0; paddle < paddles; paddle++) {
    const cameraError = 1 + shared * normal()
    const sample = Array.from({ length: hits }, () => {
      const u = own * uneven ** (2 * random() - 1)
      const rpm = (truth + between * normal()) * cameraError + u * normal()
      return ratedHit({ rpm, standardUncertaintyRpm: u, sharedRelativeUncertainty: shared })
    })
    const { band } = paddleFigure(sample).figure!
    if (band.lowRpm <= truth && truth <= band.highRpm) held++
  }
  return (100 * held) / paddles
}

/** The grid: hits that truly differ, hits that hardly do, and a camera whose error is as large as the rest. */
const counts = [2, 3, 5, 10, 20]
export const differing: Cell[] = counts.flatMap(hits =>
  [20, 30, 60].flatMap(between => [1, 2, 3].map(uneven => ({ hits, between, uneven, shared: 0 }))),
)
export const hardlyDiffering: Cell[] = counts.flatMap(hits =>
  [0, 5].flatMap(between => [1, 3].map(uneven => ({ hits, between, uneven, shared: 0 }))),
)
export const sharing: Cell[] = counts.map(hits => ({ hits, between: 30, uneven: 2, shared: 0.01 }))
