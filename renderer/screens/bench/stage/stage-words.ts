import { bearingOf } from '../../../../core/picture/bearing-of.ts'
import type { BenchState } from '../state/bench-state.ts'
import { followed, outlineOf, sightingOf } from '../state/seen.ts'

/** The stage in words, for ears: the frame, the followed mark, and what the ring around the ball says. */
export function stageWords(state: BenchState): string {
  const parts = [`The ball in frame ${state.frame}`]
  const outline = outlineOf(state, state.frame)
  if (!outline) parts.push('its outline is not placed yet')
  const mark = followed(state)
  const seen = mark && sightingOf(state, state.frame, mark.id)
  if (mark && seen) {
    const bearing = bearingOf(seen, outline)
    parts.push(bearing === null ? `${mark.id} is hidden` : `${mark.id} at ${bearing.toFixed(1)}°`)
  } else if (mark && outline) parts.push(`${mark.id} is not marked`)
  const expected = mark && state.live.expected(mark, state.frame)
  if (expected) {
    const deg = ((expected.bearingDeg % 360) + 360) % 360
    parts.push(
      expected.hidden ? 'the fit expects it behind the ball' : `the fit expects it at ${deg.toFixed(1)}°`,
    )
  }
  return parts.join(', ')
}
