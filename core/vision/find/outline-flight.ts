import type { Outline } from '../../contract/marks.ts'
import { median } from '../../numerics/median.ts'
import type { Luma } from '../luma.ts'
import { backgroundOf } from './background.ts'
import {
  type CropFrame,
  isWhole,
  type Look,
  type PictureFacts,
  type SeenOutline,
  seenByAppearance,
} from './by-appearance.ts'
import { type BesidePath, changedDisc } from './changed-disc.ts'
import { outlineIn, type Skew } from './outline.ts'
import { shiftOf } from './shift.ts'
import { showsThrough } from './shows-through.ts'
import { type PathPoint, type SmoothPath, smoothed } from './smooth.ts'
import type { Track } from './track.ts'
import { placeIn, skewOf } from './track-place.ts'

export type { CropFrame, PictureFacts } from './by-appearance.ts'
export type FlightOutline = {
  frame: number
  outline: Outline
  /** Standard uncertainty of the centre, a coordinate, and of the radius, what the model gets wrong included. */
  centreUncertaintyPx: number
  radiusUncertaintyPx: number
}
/**
 * The ball in every frame in which it can be made out, in order of time; also where the picture's edge cuts it, if the
 * picture holds a good third of it. `isWhole` (by-appearance.ts) tells these apart.
 */
export type OutlinedFlight = { outlines: FlightOutline[]; scatterPx: number; shakePx: number }
/** Frames beyond the blobs' own that are tried on either side: a blob is lost before the ball is. */
const beyond = 5
/** Share of a rim that must be seen: less where all that changed has said already where the ball is. */
const leastSeen = 0.55
const leastSeenOfDisc = 0.4
/** What the track has is a quarter of such a disc at the least; less is a spot that something uncovers. */
const mostTimes = 2
/**
 * Medians over a flight's frames (likeness.ts). On rendered clips 186 balls, the faintest and the most smeared among
 * them, explained 0.52 and more, and no more than 0.04 was outside; parts of paddles, and boards that are not nearly
 * round, were beyond one limit or both: found by trying, between the two.
 */
const leastExplained = 0.48
const mostOutside = 0.06
/** How far the fits of a round may stray from the radii by the rim alone, as a share. */
const looseness = [0.05, 0.05, 0.05]
/**
 * What the model of a ball gets wrong in all frames of a flight alike (the light at the rim, holes there, where ball
 * and wall are of one brightness): the centre, px a coordinate, and the radius as a share. Between the middle and the
 * ninth tenth of the errors on rendered clips: no theory behind it.
 */
const modelCentrePx = 0.3
const modelRadiusShare = 0.006
/** And so many times that where the edge cuts the ball: half of its rim may be all that is seen. */
const cutTimes = 2

type Point = PathPoint & { look: Look; isCut: boolean; centreUncertaintyPx: number }
/** A flight's pictures and what is known of them before the ball is. */
type Scene = { track: Track; looks: readonly Look[]; background: Luma; picture: PictureFacts; skew: Skew }

/**
 * Outlines of one flight from full-size pictures around its path. First by the rim's edges alone, then by the ball's
 * whole appearance, whose shade the flight's frames show together. Last one smooth path through the centres,
 * with the camera's shake taken out before and put back: a ball in flight does not jitter, so what jitters is the
 * outline's error. Where that gives no ball it starts again from all that changes along the track: of a ball that is
 * partly as bright as the wall the track has but a part.
 *
 * `track` is in px of the whole picture. Null when the ball cannot be made out in enough frames, when what moves
 * is no ball by its look, or when it lets the background show through.
 */
export function outlineFlight(
  track: Track,
  crops: readonly CropFrame[],
  picture: PictureFacts,
): OutlinedFlight | null {
  const background = backgroundOf(crops.map(({ luma }) => luma))
  if (!background) return null
  const { seen, radiusPx } = track
  const first = Math.max(seen[0]!.frame - beyond, track.fromFrame ?? 0)
  const last = Math.min(seen.at(-1)!.frame + beyond, track.toFrame ?? Number.POSITIVE_INFINITY)
  const looks = crops
    .filter(({ frame }) => frame >= first && frame <= last)
    .map((crop): Look => {
      const ball = { ...placeIn(seen, crop.frame), radiusPx }
      return { ...crop, shift: shiftOf(crop.luma, background, ball) }
    })
  const scene = { track, looks, background, picture, skew: skewOf(seen, picture) }
  const found = outlinedFrom(scene, { dxPx: 0, dyPx: 0, radiusPx }, leastSeen)
  if (found) return found
  const along = looks.map(look => ({ ...look, ...placeIn(seen, look.frame) }))
  const disc = changedDisc(along, background, radiusPx)
  return disc && disc.radiusPx < mostTimes * radiusPx ? outlinedFrom(scene, disc, leastSeenOfDisc) : null
}

function outlinedFrom(scene: Scene, start: BesidePath, leastRim: number): OutlinedFlight | null {
  const { looks, background, picture } = scene
  const rim = byRim(scene, start, leastRim)
  if (rim.length < 4) return null
  let path = smoothed(rim, 3)
  const radii = path
  let fits: SeenOutline[] = []
  let whole: SeenOutline[] = []
  for (const radiusLooseness of looseness) {
    if (!path || !radii) return null
    fits = seenByAppearance({ ...scene, path, radii, radiusLooseness })
    whole = fits.filter(({ isCut }) => !isCut)
    if (whole.length === 0) return null
    path = smoothed(whole.map(pointOf), 3)
  }
  if (!path || median(whole.map(fit => fit.explained)) < leastExplained) return null
  if (median(whole.map(fit => fit.outside)) > mostOutside) return null
  const points = fits.map(pointOf)
  // What the edge cuts has its own path, which whole balls hold: it takes no part in theirs.
  const further = (whole.length < fits.length && smoothed(points, 3)) || path
  const outlines = points.flatMap(point => onPath(point, point.isCut ? further : path, picture))
  const lookAt = new Map(looks.map(look => [look.frame, look]))
  const outlined = outlines
    .filter(({ outline }) => isWhole(outline, picture))
    .map(({ frame, outline }) => ({ ...lookAt.get(frame)!, outline }))
  if (outlined.length === 0 || showsThrough(outlined, background)) return null
  const shakePx = Math.max(...looks.map(({ shift }) => Math.hypot(shift.x, shift.y)))
  return { outlines, scatterPx: path.scatterPx, shakePx }
}

/** Outlines by the rim's edges alone, each near where the track has the ball. */
const byRim = ({ track, looks, background, skew }: Scene, start: BesidePath, leastRim: number): PathPoint[] =>
  looks.flatMap((look): PathPoint[] => {
    const place = placeIn(track.seen, look.frame)
    const guess = { xPx: place.xPx + start.dxPx, yPx: place.yPx + start.dyPx, radiusPx: start.radiusPx }
    const found = outlineIn(look.luma, background, look.shift, guess, null, skew)
    return found && found.seenPart >= leastRim && isNear(found.outline, guess)
      ? [placeOf(look, found.outline, found.seenPart)]
      : []
  })

/** The outline of a frame where the smooth path has it; none where its own fit lies elsewhere. */
function onPath(point: Point, path: SmoothPath, picture: PictureFacts): FlightOutline[] {
  const { look, xPx, yPx } = point
  const there = path.at(look.timeSeconds)
  const outline = { xPx: there.xPx + look.shift.x, yPx: there.yPx + look.shift.y, radiusPx: there.radiusPx }
  const off = Math.hypot(xPx - there.xPx, yPx - there.yPx)
  if (off > Math.max(4 * path.scatterPx, 0.06 * outline.radiusPx)) return []
  const isCut = !isWhole(outline, picture)
  const own = isCut ? point.centreUncertaintyPx : 0
  const model = isCut ? cutTimes : 1
  return [
    {
      frame: look.frame,
      outline,
      centreUncertaintyPx: Math.hypot(there.centreUncertaintyPx, own, model * modelCentrePx),
      radiusUncertaintyPx: Math.hypot(there.radiusUncertaintyPx, model * modelRadiusShare * outline.radiusPx),
    },
  ]
}

const placeOf = (look: Look, { xPx, yPx, radiusPx }: Outline, weight: number): PathPoint => ({
  timeSeconds: look.timeSeconds,
  xPx: xPx - look.shift.x,
  yPx: yPx - look.shift.y,
  radiusPx,
  weight,
})

const pointOf = ({ look, outline, weight, isCut, centreUncertaintyPx }: SeenOutline): Point => ({
  ...placeOf(look, outline, weight),
  look,
  isCut,
  centreUncertaintyPx,
})

const isNear = (found: Outline, guess: Outline): boolean =>
  Math.hypot(found.xPx - guess.xPx, found.yPx - guess.yPx) < 0.8 * guess.radiusPx &&
  Math.abs(Math.log(found.radiusPx / guess.radiusPx)) < 0.35
