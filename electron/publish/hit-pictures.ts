import { WhorlError } from '../../core/contract/problem.ts'
import type { Look, Size } from '../../core/contract/publish.ts'
import { outlineAt } from '../../core/marking/outline-at.ts'
import { bearingOf } from '../../core/picture/bearing-of.ts'
import { bearingPicture, type StripTile, stripFrames } from '../../core/picture/bearing-picture.ts'
import type { Scene } from '../../core/picture/scene.ts'
import { apart, type Flash, strobePicture } from '../../core/picture/strobe.ts'
import type { Media } from '../media/media.ts'
import type { HitEvidence } from './hit-evidence.ts'
import { ballTile, cut, layBall, type Part, pngBase64, type Rgba, rgbaOfFrame } from './photograph.ts'

export const tileSidePx = 96

/** Bearing against time, the ball of each frame above its point. */
export async function bearingScene(media: Media, hit: HitEvidence, look: Look, size: Size): Promise<Scene> {
  const strip: StripTile[] = []
  for (const frame of stripFrames(hit, look, size)) {
    const outline = outlineAt(hit.marks, frame, hit.timesSeconds)
    if (outline === null) continue
    const picture = await photographOf(media, hit, frame)
    strip.push({ frame, pngBase64: pngBase64(ballTile(picture, outline, tileSidePx)) })
  }
  return bearingPicture(hit, strip, look, size)
}

/** The ball's places in one photograph. Throws `hit-no-outline` where nobody placed one. */
export async function flightScene(media: Media, hit: HitEvidence, look: Look, size: Size): Promise<Scene> {
  const flashes = apart(flashesOf(hit))
  const first = flashes[0]
  if (!first) throw new WhorlError('hit-no-outline', { clip: hit.clip.name })
  const photograph = await photographOf(media, hit, first.frame)
  for (const { frame, outline } of flashes.slice(1))
    layBall(photograph, await photographOf(media, hit, frame), outline)
  const part = partAround(photograph, flashes)
  const shown = cut(photograph, part)
  return strobePicture(
    {
      ...{ name: hit.name, reading: hit.reading, captureFps: hit.captureFps ?? 0 },
      photograph: { ...part, pngBase64: pngBase64(shown) },
      flashes: flashes.map(({ outline, ...flash }) => ({
        ...flash,
        outline: { ...outline, xPx: outline.xPx - part.xPx, yPx: outline.yPx - part.yPx },
      })),
    },
    look,
    size,
  )
}

/** A copy that may be drawn into: the decoder's memory is only lent. */
export async function photographOf(media: Media, { clip }: HitEvidence, frame: number): Promise<Rgba> {
  const lent = await media.frame(clip.path, frame)
  const picture = rgbaOfFrame(lent)
  lent.done?.()
  return picture
}

function flashesOf({ marks, timesSeconds, window }: HitEvidence): Flash[] {
  const mark = mostSeen(marks)
  return Array.from(
    { length: window.toFrame - window.fromFrame + 1 },
    (_, i) => window.fromFrame + i,
  ).flatMap(frame => {
    const outline = outlineAt(marks, frame, timesSeconds)
    if (outline === null) return []
    const seen = marks.sightings.find(
      one => one.frame === frame && one.mark === mark && one.kind !== 'hidden',
    )
    return [{ frame, outline, bearingDeg: seen ? bearingOf(seen, outline) : null }]
  })
}

/** The mark whose bearing is drawn: the one that was seen most often. */
function mostSeen({ marks, sightings }: HitEvidence['marks']): string | undefined {
  const times = (id: string) => sightings.filter(seen => seen.mark === id && seen.kind !== 'hidden').length
  return marks.map(({ id }) => id).toSorted((a, b) => times(b) - times(a))[0]
}

/** The flight with room around it, and never a strip so narrow that nobody sees where it is. */
function partAround({ widthPx, heightPx }: Rgba, flashes: readonly Flash[]): Part {
  const room = 1.6 * Math.max(...flashes.map(({ outline }) => outline.radiusPx))
  const across = spanOf(
    flashes.map(({ outline }) => outline.xPx),
    room,
    widthPx,
    0,
  )
  const down = spanOf(
    flashes.map(({ outline }) => outline.yPx),
    room,
    heightPx,
    across.length / 3,
  )
  return { xPx: across.from, yPx: down.from, widthPx: across.length, heightPx: down.length }
}

function spanOf(values: readonly number[], room: number, size: number, least: number) {
  const [low, high] = [Math.min(...values) - room, Math.max(...values) + room]
  const length = Math.min(size, Math.round(Math.max(high - low, least)))
  const from = Math.round(Math.min(Math.max((low + high - length) / 2, 0), size - length))
  return { from, length }
}
