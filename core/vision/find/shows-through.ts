import type { Outline } from '../../contract/marks.ts'
import { brightnessAt, type Luma } from '../luma.ts'
import type { Shift } from './shift.ts'

/** A picture, how far it is shifted against the background, and where something was outlined in it. */
type Outlined = { luma: Luma; shift: Shift; outline: Outline }

/**
 * Correlation from here on: what lies behind is seen within the outline. Shadows on rendered clips had 0.39 and more,
 * balls, through whose holes a little is seen, at most 0.15: the middle between them.
 */
const through = 0.27
/** Within this part of the radius, in steps of so many pixels. */
const within = 0.75
const step = 2
const mostPictures = 12

/**
 * True when the background is seen within an outline that moves over it: a shadow, or a pane, and no ball. Slopes of
 * brightness are compared, not brightness, so that a smooth shade says nothing: correlation of the differences
 * between neighbouring places with those of the background behind them, over several pictures together.
 */
export function showsThrough(all: readonly Outlined[], background: Luma): boolean {
  let [own, behind, both] = [0, 0, 0]
  const every = Math.max(1, Math.ceil(all.length / mostPictures))
  for (let i = 0; i < all.length; i += every) {
    const { luma, shift, outline } = all[i]!
    const reach = within * outline.radiusPx
    for (let dy = -reach; dy <= reach; dy += step)
      for (let dx = -reach; dx <= reach; dx += step) {
        if (Math.hypot(dx, dy) > reach) continue
        const [x, y] = [outline.xPx + dx, outline.yPx + dy]
        const [u, v] = [x - shift.x, y - shift.y]
        for (const [ex, ey] of [
          [step, 0],
          [0, step],
        ] as const) {
          const a = brightnessAt(luma, x + ex, y + ey) - brightnessAt(luma, x - ex, y - ey)
          const b = brightnessAt(background, u + ex, v + ey) - brightnessAt(background, u - ex, v - ey)
          own += a * a
          behind += b * b
          both += a * b
        }
      }
  }
  return both > through * Math.sqrt(own * behind)
}
