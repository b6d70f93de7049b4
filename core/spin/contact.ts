import { straightLine } from '../numerics/straight-line.ts'
import { assumed, pixelGridPx } from './assumptions.ts'
import { fitBearing } from './bearing.ts'
import type { Estimate, NotMeasured } from './estimate.ts'
import type { Observations } from './observations.ts'

/** A contact inside a window: positions in `Observations.frames` of the frames around it, and both rates. */
export type Contact = { lastBefore: number; firstAfter: number; before: Estimate; after: Estimate }

const fewestFrames = 4
/** Places looked at before the best one's neighbours are. */
const coarsePlaces = 16
/** Scatter beyond this multiple of the click error is not the clicks'. */
const plausibleScatter = 2.5
/** The two flights must explain the marks so much better than one: a ratio of variances far beyond chance. */
const leastGain = 4
/** Rates that differ by less, in standard uncertainties or as a share, may be one. */
const leastSigmas = 5
const leastShare = 0.05
/** A contact turns the ball's path: by this share of its speed at least. */
const leastTurn = 0.25
/** And by so much over the window, px: a ball that stands still has a path of rounding alone. */
const leastTurnPx = 1

/**
 * A contact that the window spans, or null. Looked for only where one flight explains the marks badly:
 * at every place with four frames on both sides, each side gets its own bearing fit, and the best place
 * counts if the two together leave far less than one flight, turn at different rates, and the ball's path
 * turns there too (where outlines show it).
 */
export function contactIn(o: Observations, whole: Estimate | NotMeasured): Contact | null {
  const clickPx = o.clickPx ?? assumed.clickPx
  const doubted = whole.measured ? whole.sightings.filter(fit => fit.weight < 0.5).length : 0
  const explained = whole.measured && whole.scatter.px <= plausibleScatter * clickPx && doubted < 3
  if (explained || (!whole.measured && !whole.contradictory)) return null
  const marked = [...new Set(o.sightings.map(sighting => sighting.frame))]
  const stride = Math.ceil(marked.length / coarsePlaces)
  const coarse = bestSplit(o, marked, fewestFrames, marked.length - fewestFrames, stride)
  const best = coarse && (bestSplit(o, marked, coarse.at - stride, coarse.at + stride, 1) ?? coarse)
  if (!best || !differ(best) || !pathTurns(o, best)) return null
  const left = Math.max(best.misfit / o.sightings.length, pixelGridPx ** 2)
  const gained = whole.measured ? misfitOf(whole) / o.sightings.length / left : Number.POSITIVE_INFINITY
  return left <= (plausibleScatter * clickPx) ** 2 && gained > leastGain ? best : null
}

type Split = Contact & { at: number; misfit: number }

/** The split with the least misfit among some places; `at` is the position of the first frame after it. */
function bestSplit(
  o: Observations,
  marked: number[],
  from: number,
  to: number,
  stride: number,
): Split | null {
  let best: Split | null = null
  const last = marked.length - fewestFrames
  for (let at = Math.max(from, fewestFrames); at <= Math.min(to, last); at += stride) {
    const [lastBefore, firstAfter] = [marked[at - 1]!, marked[at]!]
    const before = fitBearing(withFrames(o, 0, lastBefore))
    const after = fitBearing(withFrames(o, firstAfter, o.frames.length - 1))
    if (!before.measured || !after.measured) continue
    const misfit = misfitOf(before) + misfitOf(after)
    if (!best || misfit < best.misfit) best = { at, lastBefore, firstAfter, before, after, misfit }
  }
  return best
}

/** The observations of some frames only, first and last included. */
function withFrames(o: Observations, first: number, last: number): Observations {
  const within = ({ frame }: { frame: number }) => frame >= first && frame <= last
  const moved = <T extends { frame: number }>(one: T): T => ({ ...one, frame: one.frame - first })
  return {
    ...o,
    frames: o.frames.slice(first, last + 1),
    sightings: o.sightings.filter(within).map(moved),
    hidden: o.hidden.filter(within).map(moved),
  }
}

/** Σ of squared distances along the marks' way, px², whatever the robust loss made of them. */
const misfitOf = ({ sightings }: Estimate): number =>
  sightings.reduce((sum, fit) => sum + (fit.pxPerRad * fit.phaseResidualRad) ** 2, 0)

function differ({ before, after }: Contact): boolean {
  const apart = Math.abs(before.rateRadPerSecond - after.rateRadPerSecond)
  const uncertainty = Math.hypot(before.scatterUncertaintyRadPerSecond, after.scatterUncertaintyRadPerSecond)
  const larger = Math.max(Math.abs(before.rateRadPerSecond), Math.abs(after.rateRadPerSecond))
  return apart > leastSigmas * uncertainty && apart > leastShare * larger
}

/** True, too, where outlines are missing: then the bearings speak alone. */
function pathTurns(o: Observations, { lastBefore, firstAfter }: Contact): boolean {
  const before = velocityOf(o, 0, lastBefore)
  const after = velocityOf(o, firstAfter, o.frames.length - 1)
  if (!before || !after) return true
  const turned = Math.hypot(before.x - after.x, before.y - after.y)
  const seconds = o.frames.at(-1)!.timeSeconds - o.frames[0]!.timeSeconds
  return (
    turned * seconds > leastTurnPx &&
    turned > leastTurn * Math.max(Math.hypot(before.x, before.y), Math.hypot(after.x, after.y))
  )
}

/** Mean velocity of the outline's centre, px/s. */
function velocityOf(o: Observations, first: number, last: number): { x: number; y: number } | null {
  const outlined = o.frames.slice(first, last + 1).filter(frame => frame.outline)
  const times = outlined.map(frame => frame.timeSeconds)
  const x = straightLine(
    times,
    outlined.map(frame => frame.outline!.xPx),
  )
  const y = straightLine(
    times,
    outlined.map(frame => frame.outline!.yPx),
  )
  return x && y ? { x: x.slope, y: y.slope } : null
}
