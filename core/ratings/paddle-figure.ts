import type { Band, CeilingLimit, Flag } from '../contract/reading.ts'
import { studentT } from '../numerics/student-t.ts'
import { bandLevel } from '../spin/band.ts'
import { type HeldBack, heldBackReason } from './held-back-reason.ts'
import { bandOfMean, type KnownMean, standardUncertaintyOf } from './known-mean.ts'
import { randomEffectsMean } from './random-effects-mean.ts'
import type { RatedHit } from './rated-hit.ts'
import { worstFlag } from './worst-flag.ts'

/** A paddle's spin in one set-up: the mean over its hits, and how well that mean is known. */
export type PaddleFigure = KnownMean & {
  band: Band
  standardUncertaintyRpm: number
  /** How much the true spin differs from hit to hit; null for a single hit, which cannot tell. */
  betweenHitSdRpm: number | null
  flag: Flag
  limit: CeilingLimit | null
  /** The hits in the mean. */
  hits: string[]
}
export type PaddleRating = {
  /** Null when no hit may be rated; `heldBack` then says why, hit by hit. */
  figure: PaddleFigure | null
  heldBack: ({ id: string } & HeldBack)[]
}

/** Gathers hits into a paddle's figure. What may not be rated is left out and listed with its reason. */
export function paddleFigure(hits: readonly RatedHit[]): PaddleRating {
  const judged = hits.map(hit => ({ hit, out: heldBackReason(hit) }))
  const heldBack = judged.flatMap(({ hit, out }) => (out === null ? [] : [{ id: hit.id, ...out }]))
  const used = judged.filter(({ out }) => out === null).map(({ hit }) => hit as UsableHit)
  if (used.length === 0) return { figure: null, heldBack }
  const figure = used.length === 1 ? single(used[0]!) : several(used)
  return { figure: { ...figure, ...worstFlag(used), hits: used.map(hit => hit.id) }, heldBack }
}

type UsableHit = RatedHit & { rpm: number; standardUncertaintyRpm: number }
type Mean = Omit<PaddleFigure, 'flag' | 'limit' | 'hits'>

/** One hit has its reading's band: that of this hit, which says nothing of the next one. */
function single(hit: UsableHit): Mean {
  const { rpm, standardUncertaintyRpm, effectiveDof } = hit
  const degreesOfFreedom = effectiveDof ?? Number.POSITIVE_INFINITY
  const known: KnownMean = {
    meanRpm: rpm,
    own: { standardUncertaintyRpm, degreesOfFreedom },
    shared: sharedParts([hit], [1]),
  }
  const u = standardUncertaintyOf(known)
  const halfWidth = studentT((1 + bandLevel) / 2, degreesOfFreedom) * u
  const band = { lowRpm: rpm - halfWidth, highRpm: rpm + halfWidth, level: bandLevel }
  return { ...known, standardUncertaintyRpm: u, band: fromZero(band), betweenHitSdRpm: null }
}

/** Many hits have their random-effects mean; what they share comes on top, however many they are. */
function several(hits: readonly UsableHit[]): Mean {
  const { mean, shares, betweenSd, standardUncertainty, degreesOfFreedom } = randomEffectsMean(
    hits.map(hit => hit.rpm),
    hits.map(hit => hit.standardUncertaintyRpm),
  )
  const known: KnownMean = {
    meanRpm: mean,
    own: { standardUncertaintyRpm: standardUncertainty, degreesOfFreedom },
    shared: sharedParts(hits, shares),
  }
  return {
    ...known,
    standardUncertaintyRpm: standardUncertaintyOf(known),
    band: fromZero(bandOfMean(known)),
    betweenHitSdRpm: betweenSd,
  }
}

/** One camera's error moves all its hits together, so it adds up; the cameras' errors are their own. */
function sharedParts(hits: readonly UsableHit[], shares: readonly number[]): KnownMean['shared'] {
  const bySource = new Map<string, number>()
  const add = (source: string, rpm: number) => bySource.set(source, (bySource.get(source) ?? 0) + rpm)
  for (const [i, hit] of hits.entries()) {
    const moved = shares[i]! * hit.rpm
    add(`camera ${hit.camera}`, moved * hit.sharedRelativeUncertainty)
    if (hit.driftRelativeUncertainty > 0) add(`session ${hit.session}`, moved * hit.driftRelativeUncertainty)
  }
  return [...bySource].map(([source, standardUncertaintyRpm]) => ({ source, standardUncertaintyRpm }))
}

const fromZero = (band: Band): Band => ({ ...band, lowRpm: Math.max(0, band.lowRpm) })
