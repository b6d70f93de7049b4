import { length, type Vector } from '../../geometry/vector.ts'
import { median } from '../../numerics/median.ts'
import { isPlausible, rankCandidates } from '../../spin/alias.ts'
import { assumed } from '../../spin/assumptions.ts'
import type { Estimate, NotMeasured } from '../../spin/estimate.ts'
import type { Observations } from '../../spin/observations.ts'
import type { Pointed } from '../propose.ts'
import { agreementOn } from './agreement.ts'
import { areAliases, logOdds } from './odds.ts'
import { sharpened } from './refine.ts'
import { estimateOf } from './report.ts'
import { type Found, search } from './search.ts'
import { intervalOf, sightsOf } from './sights.ts'
import { type Lens, type Solution, solved } from './solve.ts'
import { strongestFeature } from './strongest-feature.ts'
import type { SurfaceInput } from './surface-input.ts'
import { sheetsOf, softened } from './textures.ts'

/** `evidence`: how far the pictures speak for the rotation rather than chance (agreement.ts). */
export type SurfaceReading = {
  estimate: Estimate
  /** Rotation vectors of the estimate's candidates, in their order. */
  rotations: Vector[]
  solution: Solution
  evidence: number
  /** What stands out most on the ball, in the frame that shows it best. */
  feature: Pointed | null
}

const fewestFrames = 4
const smallestRadiusPx = 9
/** Evidence a frame below this is what chance finds among all turns that are tried. */
const leastEvidence = 1
const fineHalf = 20
const softHalf = 10
const softWidth = 0.07
/** The wide search looks at every third place of the ball. */
const scanStride = 3

/**
 * The rotation of one flight from the pattern of the ball's surface, in all frames at once; no marks needed.
 * `observations` carries the capture, the plausible rates and one sighting a frame, as `surfaceObservations`
 * makes them.
 */
export function readSurface(input: SurfaceInput, o: Observations): SurfaceReading | NotMeasured {
  const { frames } = input
  if (frames.length < fewestFrames)
    return no(
      `The ball is whole in ${frames.length} frames; its surface can be read in at least ${fewestFrames}.`,
      'Film so that the ball stays in the picture for longer, or mark the ball by hand.',
    )
  const radius = median(frames.map(frame => frame.outline.radiusPx))
  if (radius < smallestRadiusPx)
    return no(
      `The ball is ${(2 * radius).toFixed(0)} px across: too small to see its surface turn.`,
      'Film from nearer or with a longer lens: 40 px across or more.',
    )
  const lens = lensOf(input)
  const sights = sightsOf(input, lens.focalPx, lens.readoutSeconds)
  const sheets = sheetsOf(
    frames.map(frame => frame.luma),
    sights,
    fineHalf,
    input.exposureSeconds ?? 0,
  )
  const soft = softened(sheets, softHalf, softWidth)
  const agreement = agreementOn(soft, sights)
  const roughly = agreementOn(soft, sights, scanStride)
  const hills = search(soft, sights, roughly, input.maxRateRadPerSecond)
  const found = sharpened(soft, sights, { agreement, roughly }, hills, rotation =>
    isPlausible(signed(rotation), o),
  )
  const least = leastEvidence * frames.length
  if (!found.some(({ score }) => score > least))
    return no(
      'The surface shows too little pattern to tell how the ball turns.',
      'Use a shorter exposure and more light, or put a bold mark on the ball.',
    )
  // What blurs beyond recognition can be explained by turns that are faster still: they are heard only where no
  // plausible rate explains the pictures. Rivals need no evidence of their own beside a weak best one.
  const plausible = found.filter(({ rotation }) => isPlausible(signed(rotation), o))
  const isExplained = plausible.some(({ score }) => score > least)
  const rivals = (isExplained ? plausible : found).sort((a, b) => b.score - a.score)
  const [top] = rivals
  const best = agreement(top!.rotation)
  const interval = intervalOf(sights)
  // Of aliases the slower one comes first; what the frames could tell apart comes behind what they speak for most.
  const oddsOf = (one: Found) => {
    const odds = logOdds(agreement(one.rotation), best)
    const isBehind = one !== top && !areAliases(one.rotation, top!.rotation, interval)
    return isBehind ? Math.min(odds, -Math.LN2) : odds
  }
  const ranked = rankCandidates(
    rivals.map(one => ({ rateRadPerSecond: signed(one.rotation), logLikelihood: oddsOf(one) })),
    o,
  ).filter(candidate => candidate.support > 1e-6)
  const climbedTo = ranked.map(
    ({ rateRadPerSecond }) => rivals.find(({ rotation }) => signed(rotation) === rateRadPerSecond)!,
  )
  const chosen = climbedTo[0]!
  const solution = solved(input, sheets, chosen.rotation, lens, { stride: 2 })
  if (!solution)
    return no('The frames do not agree on one rotation.', 'Check the window: it should hold one flight.')
  const rate = signed(solution.rotation)
  const candidates = ranked.map((candidate, i) =>
    i === 0 ? { ...candidate, rateRadPerSecond: rate, plausible: isPlausible(rate, o) } : candidate,
  )
  return {
    solution,
    rotations: [solution.rotation, ...climbedTo.slice(1).map(({ rotation }) => rotation)],
    evidence: chosen.score,
    feature: strongestFeature(input, sheets, solution),
    estimate: estimateOf(input, solution, candidates),
  }
}

const no = (reason: string, tip: string): NotMeasured => ({ measured: false, reason, tip })

/** Length of a rotation vector, positive where the camera sees it turn clockwise. */
const signed = (rotation: Vector): number => (rotation[2] < 0 ? -length(rotation) : length(rotation))

function lensOf({ focalLengthPx, readoutSeconds, fps, picture }: SurfaceInput): Lens {
  const half = picture.widthPx / 2
  return {
    focalPx: focalLengthPx ?? half / assumed.viewTangent,
    readoutSeconds: readoutSeconds ?? assumed.readoutIntervals / fps,
    flatnessUncertainty: focalLengthPx === null ? assumed.viewTangentUncertainty / half : null,
  }
}
