import { scaled, sum, type Vector } from '../../geometry/vector.ts'
import { posesOf } from './poses.ts'
import { type FlatnessPrior, type Regression, regressed } from './regress.ts'
import { pairsApart } from './search.ts'
import { type Sight, sightsOf } from './sights.ts'
import type { Pair } from './steps.ts'
import type { SurfaceInput } from './surface-input.ts'
import type { Sheets } from './textures.ts'

export type Solution = {
  rotation: Vector
  focalPx: number
  sights: Sight[]
  regression: Regression
  /** What the outlines share of centre and radius, ball radii. */
  common: readonly [x: number, y: number, radius: number]
}
/** The camera as it is taken to be, and how open its focal length is (null: known). */
export type Lens = { focalPx: number; readoutSeconds: number; flatnessUncertainty: number | null }

const rounds = 8
/**
 * A step goes further than the slopes say: they hold noise, which makes the pattern look steeper and so the step
 * that it asks for too short. Below 2 a step that was right comes nearer still. Tried on rendered clips: at 1 the
 * rounds ended half-way.
 */
const overstep = 1.8
const pairsAFrame = 9

/**
 * The motion that all frames agree on, from a start that is right to a fraction of a hole: each round turns
 * every frame to fit the others, then draws the one even rotation (and focal length, where it is open) through
 * the turns.
 */
export function solved(
  input: SurfaceInput,
  sheets: Sheets,
  start: Vector,
  lens: Lens,
  rate: { stride: number },
): Solution | null {
  let rotation = start
  let flatness = 1 / lens.focalPx
  let solution: Solution | null = null
  const pairs = pairsOf(input.frames.length)
  const places = input.frames.map(
    ({ outline }) =>
      [outline.xPx - input.picture.widthPx / 2, outline.yPx - input.picture.heightPx / 2] as const,
  )
  for (let round = 0; round < rounds; round++) {
    const sights = sightsOf(input, 1 / flatness, lens.readoutSeconds)
    const poses = posesOf(sheets, sights, pairs, rotation, rate.stride)
    const prior: FlatnessPrior =
      lens.flatnessUncertainty === null
        ? null
        : { offBy: 1 / lens.focalPx - flatness, uncertainty: lens.flatnessUncertainty }
    const regression = poses && regressed(poses.turns, sights, rotation, flatness, places, prior)
    if (!regression) return null
    rotation = sum(rotation, scaled(regression.change, overstep))
    flatness = Math.max(flatness + overstep * regression.flatnessChange, 1e-6)
    solution = { rotation, focalPx: 1 / flatness, sights, regression, common: poses.common }
    if (Math.hypot(...regression.change) < 0.05 * regression.rateUncertainty) break
  }
  return solution
}

/** Pairs over all gaps: near ones often, far ones as often as there are. */
function pairsOf(frames: number): Pair[] {
  const wanted = pairsAFrame * frames
  const all = Array.from({ length: frames - 1 }, (_, g) => g + 1)
  const gaps = all.filter(gap => gap <= 4 || gap % Math.max(1, Math.round(frames / 14)) === 0)
  return gaps.flatMap(gap => pairsApart(frames, gap, Math.ceil(wanted / gaps.length)))
}
