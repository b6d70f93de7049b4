import type { Outline } from '../../contract/marks.ts'
import { median } from '../../numerics/median.ts'
import { backgroundOf } from './background.ts'
import { type CropFrame, isWhole, type Look, type PictureFacts, seenByAppearance } from './by-appearance.ts'
import { outlineIn, type Skew } from './outline.ts'
import { shiftOf } from './shift.ts'
import { showsThrough } from './shows-through.ts'
import { type PathPoint, smoothed } from './smooth.ts'
import type { Track } from './track.ts'

export type { CropFrame, PictureFacts } from './by-appearance.ts'
export type FlightOutline = {
  frame: number
  outline: Outline
  /** Standard uncertainty of the centre, a coordinate, and of the radius, what the model gets wrong included. */
  centreUncertaintyPx: number
  radiusUncertaintyPx: number
}
/** The ball in every frame in which it is whole and clear, in order of time. */
export type OutlinedFlight = { outlines: FlightOutline[]; scatterPx: number; shakePx: number }
/** Frames beyond the blobs' own that are tried on either side: a blob is lost before the ball is. */
const beyond = 5
const leastSeenPart = 0.55
/**
 * Over a flight's frames a ball explains at least this part of what it changes in the picture. On rendered clips boards
 * and parts of paddles stayed below 0.57, and 113 balls, the faintest and the most smeared among them, were above it.
 */
const leastExplained = 0.565
/**
 * What the model of a ball gets wrong in all frames of a flight alike (the light at the rim, holes there, where ball
 * and wall are of one brightness): the centre, px a coordinate, and the radius as a share. Between the middle and the
 * ninth tenth of the errors on rendered clips: no theory behind it.
 */
const modelCentrePx = 0.3
const modelRadiusShare = 0.006

type Point = PathPoint & { look: Look }

/**
 * Outlines of one flight from full-size pictures around its path. First by the rim's edges alone, then by the ball's
 * whole appearance, whose shade the flight's frames show together. Last one smooth path through the centres,
 * with the camera's shake taken out before and put back: a ball in flight does not jitter, so what jitters is the
 * outline's error.
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
  const { seen } = track
  const first = Math.max(seen[0]!.frame - beyond, track.fromFrame ?? 0)
  const last = Math.min(seen.at(-1)!.frame + beyond, track.toFrame ?? Number.POSITIVE_INFINITY)
  const looks = crops
    .filter(({ frame }) => frame >= first && frame <= last)
    .map((crop): Look => {
      const ball = { ...placeIn(seen, crop.frame), radiusPx: track.radiusPx }
      return { ...crop, shift: shiftOf(crop.luma, background, ball) }
    })
  const skew = skewOf(seen, picture)
  const free = looks.flatMap((look): Point[] => {
    const guess = { ...placeIn(seen, look.frame), radiusPx: track.radiusPx }
    const found = outlineIn(look.luma, background, look.shift, guess, null, skew)
    return found && found.seenPart >= leastSeenPart && isNear(found.outline, guess)
      ? [pointOf(look, found.outline, found.seenPart)]
      : []
  })
  if (free.length < 4) return null
  let path = smoothed(free, 3)
  let points: Point[] = []
  let explained = 0
  const radii = path
  for (const radiusLooseness of [0.05, 0.03]) {
    if (!path || !radii) return null
    const fits = seenByAppearance({ looks, background, path, radii, picture, skew, radiusLooseness })
    points = fits.map(({ look, outline, weight }) => pointOf(look, outline, weight))
    explained = fits.length === 0 ? 0 : median(fits.map(fit => fit.explained))
    path = smoothed(points, 3)
  }
  if (!path || explained < leastExplained) return null
  const { at, scatterPx } = path
  const outlines = points.flatMap(({ look, timeSeconds, xPx, yPx }): FlightOutline[] => {
    const there = at(timeSeconds)
    const outline = { xPx: there.xPx + look.shift.x, yPx: there.yPx + look.shift.y, radiusPx: there.radiusPx }
    const off = Math.hypot(xPx - there.xPx, yPx - there.yPx)
    if (off > Math.max(4 * scatterPx, 0.06 * outline.radiusPx) || !isWhole(outline, picture, 0.5)) return []
    const centreUncertaintyPx = Math.hypot(there.centreUncertaintyPx, modelCentrePx)
    const radiusUncertaintyPx = Math.hypot(there.radiusUncertaintyPx, modelRadiusShare * outline.radiusPx)
    return [{ frame: look.frame, outline, centreUncertaintyPx, radiusUncertaintyPx }]
  })
  const lookAt = new Map(looks.map(look => [look.frame, look]))
  const outlined = outlines.map(({ frame, outline }) => ({ ...lookAt.get(frame)!, outline }))
  if (showsThrough(outlined, background)) return null
  const shakePx = Math.max(...looks.map(({ shift }) => Math.hypot(shift.x, shift.y)))
  return outlines.length > 0 ? { outlines, scatterPx, shakePx } : null
}

const pointOf = (look: Look, { xPx, yPx, radiusPx }: Outline, weight: number): Point => ({
  look,
  timeSeconds: look.timeSeconds,
  xPx: xPx - look.shift.x,
  yPx: yPx - look.shift.y,
  radiusPx,
  weight,
})

const isNear = (found: Outline, guess: Outline): boolean =>
  Math.hypot(found.xPx - guess.xPx, found.yPx - guess.yPx) < 0.8 * guess.radiusPx &&
  Math.abs(Math.log(found.radiusPx / guess.radiusPx)) < 0.35

/** Between the blobs evenly, beyond them straight on. */
function placeIn(seen: Track['seen'], frame: number): { xPx: number; yPx: number } {
  let k = seen.findIndex(blob => blob.frame >= frame)
  if (k === -1) k = seen.length - 1
  if (seen[k]!.frame === frame) return seen[k]!
  // A blob that the picture's edge has cut misleads: beyond the ends the path a few frames further in counts.
  const isOutside = frame < seen[0]!.frame || frame > seen.at(-1)!.frame
  const [a, b] = isOutside
    ? k === 0
      ? [seen[0]!, seen[Math.min(3, seen.length - 1)]!]
      : [seen[Math.max(seen.length - 4, 0)]!, seen.at(-1)!]
    : [seen[k - 1]!, seen[k]!]
  const share = (frame - a.frame) / (b.frame - a.frame)
  return { xPx: a.xPx + share * (b.xPx - a.xPx), yPx: a.yPx + share * (b.yPx - a.yPx) }
}

function skewOf(seen: Track['seen'], { readoutSeconds, heightPx, fps }: PictureFacts): Skew {
  const [a, b] = [seen[0]!, seen.at(-1)!]
  const perRow = ((readoutSeconds / heightPx) * fps) / (b.frame - a.frame)
  const y = (b.yPx - a.yPx) * perRow
  return { x: ((b.xPx - a.xPx) * perRow) / (1 - y), y: y / (1 - y) }
}
