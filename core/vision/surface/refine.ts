import { length, scaled, unit, type Vector } from '../../geometry/vector.ts'
import type { Agreement } from './agreement.ts'
import { climbed, hillsOf, judged, ratesAbout } from './hills.ts'
import { type Found, pairsApart, smallestTurn } from './search.ts'
import { intervalOf, type Sight } from './sights.ts'
import { stepped } from './steps.ts'
import type { Sheets } from './textures.ts'

const keptBeyond = 2
/** Steps of the first climb and of the last, radians over the whole flight. */
const coarse = [0.24, 0.12, 0.06]
const last = [0.06, 0.03]
/** Pairs of each gap that a hill's top is sought on, by the differences of their patterns. */
const pairsAGap = 8
const gapsOf = (frames: number): number[] =>
  [1, 2, 3, 4, 6, 8, 11, 15, 20, 27, 36, 48].filter(gap => gap < frames)

/**
 * Climbs to the tops of the hills that the search found, first by fewer places of the ball (`roughly`), and judges
 * all by how far each frame agrees with what the others show. Rates some holes on or back over the whole flight
 * are looked at too, about the best axes, and the plausible aliases of the best. Best first, aliases last.
 */
export function sharpened(
  soft: Sheets,
  sights: readonly Sight[],
  { agreement, roughly }: { agreement: Agreement; roughly: Agreement },
  found: readonly Found[],
  isPlausible: (rotation: Vector) => boolean,
): Found[] {
  const seconds = sights.at(-1)!.timeSeconds - sights[0]!.timeSeconds
  const frameSeconds = seconds / (sights.length - 1)
  const turning = (all: Found[]) =>
    all.filter(({ rotation }) => length(rotation) * frameSeconds > smallestTurn)
  const pairs = gapsOf(sights.length).flatMap(gap => pairsApart(sights.length, gap, pairsAGap))
  const settled = (start: Found): Found => {
    const longest = 0.1 / seconds
    const next = judged(
      agreement,
      stepped(soft, sights, pairs, start.rotation, { rounds: 8, stride: 1, longest }),
    )
    return climbed(agreement, next.score > start.score ? next : start, seconds, last)
  }
  const first = turning(found.map(one => climbed(roughly, one, seconds, coarse))).sort(
    (a, b) => b.score - a.score,
  )
  const others = first.slice(0, 2).flatMap(({ rotation }) => ratesAbout(roughly, rotation, seconds))
  const starts = [...first.map(one => one.rotation), ...others].map(rotation => judged(agreement, rotation))
  const near = turning(hillsOf(agreement, turning(starts), seconds, settled))
  // A whole turn an interval more or less looks the same, or nearly where rows are read at uneven times: climb to it.
  const interval = intervalOf(sights)
  const beyond = near.slice(0, keptBeyond).flatMap(({ rotation }) =>
    [-1, 1]
      .map(turns => scaled(unit(rotation), length(rotation) + (turns * 2 * Math.PI) / interval))
      .filter(isPlausible)
      .map(alias => settled(judged(agreement, alias))),
  )
  return [...near, ...beyond]
}
