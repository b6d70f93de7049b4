import type { BenchMark, PlacedOutline, PlacedSighting } from '../../../../core/contract/bench.ts'
import type { Outline } from '../../../../core/contract/marks.ts'
import { outlineAt } from '../../../../core/marking/outline-at.ts'
import type { BenchState, PicturePoint } from './bench-state.ts'

/** The ball's circle in a frame; while it is dragged, as it is dragged. */
export const outlineOf = (
  state: Pick<BenchState, 'marks' | 'timesSeconds' | 'dragged'>,
  frame: number,
): Outline | null =>
  state.dragged?.frame === frame ? state.dragged.outline : outlineAt(state.marks, frame, state.timesSeconds)

export const placedOutline = (state: Pick<BenchState, 'marks'>, frame: number): PlacedOutline | null =>
  state.marks.outlines.find(outline => outline.frame === frame) ?? null

/** True where the ball's place is known from outlines on both sides, not carried on beyond the last one. */
export function isBallBetween(state: Pick<BenchState, 'marks'>, frame: number): boolean {
  const frames = state.marks.outlines.map(outline => outline.frame)
  return frame >= Math.min(...frames) && frame <= Math.max(...frames)
}

export const followed = (state: Pick<BenchState, 'marks' | 'mark'>): BenchMark | null =>
  state.marks.marks.find(mark => mark.id === state.mark) ?? state.marks.marks[0] ?? null

export const sightingOf = (
  state: Pick<BenchState, 'marks'>,
  frame: number,
  mark: string,
): PlacedSighting | null =>
  state.marks.sightings.find(seen => seen.frame === frame && seen.mark === mark) ?? null

/** Where the crosshair stands: where it was moved to, else where the fit expects the mark, else mid-ball. */
export function crosshairOf(state: BenchState): PicturePoint {
  if (state.cursor) return state.cursor
  const outline = state.rim ? state.rim.near : outlineOf(state, state.frame)
  if (!state.rim && state.mode === 'mark') {
    const mark = followed(state)
    const expected = mark && state.live.expected(mark, state.frame)
    if (expected && expected.xPx !== null && expected.yPx !== null && !expected.hidden)
      return { xPx: expected.xPx, yPx: expected.yPx }
  }
  if (outline) return { xPx: outline.xPx, yPx: outline.yPx }
  return { xPx: (state.clip.probe?.widthPx ?? 0) / 2, yPx: (state.clip.probe?.heightPx ?? 0) / 2 }
}

/** The bearing of the line that is being laid along a direction mark. */
export function lineBearingOf(state: BenchState): number {
  if (state.cursorBearingDeg !== null) return state.cursorBearingDeg
  const mark = followed(state)
  const seen = mark && sightingOf(state, state.frame, mark.id)
  if (seen?.kind === 'direction') return seen.bearingDeg
  return (mark && state.live.expected(mark, state.frame)?.bearingDeg) ?? 0
}

/** More than one rate explains the hit, and nobody has said which it was. */
export const isToSettle = ({ live: { reading }, marks }: BenchState): boolean =>
  reading?.flag === 'ambiguous' && reading.rpm !== null && marks.settled === null
