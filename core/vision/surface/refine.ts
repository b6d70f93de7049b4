import { length, scaled, unit, type Vector } from '../../geometry/vector.ts'
import { median } from '../../numerics/median.ts'
import { type Agreement, agreementOn } from './agreement.ts'
import { climbed, hillsOf, judged, ratesAbout, sameHill } from './hills.ts'
import { distinct, type Found, pairsApart, smallestTurn } from './search.ts'
import type { Sight } from './sights.ts'
import { stepped } from './steps.ts'
import type { Sheets } from './textures.ts'

/** Gaps in frames over which a rotation is held against the pictures, one after the other. */
const gapsOf = (frames: number): number[] =>
  [1, 2, 3, 4, 6, 8, 11, 15, 20, 27, 36, 48].filter(gap => gap < frames)
const keptBeyond = 2
/** A scan looks at every third place of the ball. */
const scanStride = 3

/**
 * Sharpens each candidate over growing gaps, so that it always knows by less than a hill's width where to look next,
 * then judges all by how far each frame agrees with what the others show. Rates some holes on or back over the
 * whole flight are looked at too, about the best axes, and the aliases of the best. Best first, aliases last.
 */
export function sharpened(
  sheets: Sheets,
  soft: Sheets,
  sights: readonly Sight[],
  agreement: Agreement,
  found: readonly Found[],
): Found[] {
  const n = sights.length
  const gaps = gapsOf(n)
  const seconds = sights.at(-1)!.timeSeconds - sights[0]!.timeSeconds
  const frameSeconds = seconds / (n - 1)
  const sharper = (start: Vector): Found => {
    let better = start
    gaps.forEach((gap, k) => {
      const pairs = gaps.slice(Math.max(k - 2, 0), k + 1).flatMap(g => pairsApart(n, g, 8))
      const longest = 0.1 / (gap * frameSeconds)
      better = stepped(gap < 4 ? soft : sheets, sights, pairs, better, { rounds: 3, stride: 2, longest })
    })
    return judged(agreement, better)
  }
  const turning = (all: Found[]) =>
    all.filter(({ rotation }) => length(rotation) * frameSeconds > smallestTurn)
  const first = distinct(turning(found.map(({ rotation }) => sharper(rotation))), sameHill / seconds)
  const roughly = agreementOn(soft, sights, scanStride)
  const others = first
    .slice(0, 2)
    .flatMap(({ rotation }) => ratesAbout(roughly, rotation, seconds))
    .map(rotation => judged(agreement, rotation))
  const near = hillsOf(agreement, turning([...first, ...others]), seconds)
  // A whole turn an interval more or less looks the same, or nearly where rows are read at uneven times: climb to it.
  const interval = median(sights.slice(1).map((s, i) => s.timeSeconds - sights[i]!.timeSeconds))
  const beyond = near.slice(0, keptBeyond).flatMap(({ rotation }) =>
    [-1, 1].map(turns => {
      const alias = scaled(unit(rotation), length(rotation) + (turns * 2 * Math.PI) / interval)
      return climbed(agreement, judged(agreement, alias), seconds)
    }),
  )
  return [...near, ...beyond]
}
