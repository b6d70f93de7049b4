import type { BenchMark, PlacedSighting } from '../../../../core/contract/bench.ts'
import { bearingDegOf } from '../../../../core/picture/bearing-of.ts'
import type { PicturePoint } from './bench-state.ts'
import type { BenchStore } from './bench-store.ts'
import { goTo, goToUnmarked } from './going.ts'
import { followed, outlineOf, sightingOf } from './seen.ts'

/** Follows a mark, the one that was followed unless another is named; only once the ball's place is known. */
export function followMark(store: BenchStore, id?: string): void {
  const { set, marks, mark } = store.getState()
  if (marks.outlines.length === 0) return
  set({ mode: 'mark', rim: null, cursor: null, cursorBearingDeg: null, mark: id ?? mark })
}

/** A new mark beside the others, or another way to follow one of them. */
export function putMark(store: BenchStore, mark: BenchMark): void {
  if (store.getState().edit('marks', { kind: 'put-mark', mark })) followMark(store, mark.id)
}

/** The followed mark is seen at a point of the picture; a direction mark points there from mid-ball. */
export function placeMark(store: BenchStore, at: PicturePoint): void {
  const state = store.getState()
  const { frame } = state
  const mark = followed(state)
  const outline = outlineOf(state, frame)
  if (mark?.kind === 'point') see(store, { kind: 'point', frame, mark: mark.id, ...at })
  else if (outline) layLine(store, bearingDegOf(at.xPx - outline.xPx, at.yPx - outline.yPx))
}

/** The followed mark points in a direction. */
export function layLine(store: BenchStore, deg: number): void {
  const state = store.getState()
  const mark = followed(state)
  if (!mark) return
  see(store, { kind: 'direction', frame: state.frame, mark: mark.id, bearingDeg: ((deg % 360) + 360) % 360 })
}

/** The followed mark was looked for and is behind the ball. */
export function markHidden(store: BenchStore): void {
  const state = store.getState()
  const mark = followed(state)
  if (mark && state.mode === 'mark') see(store, { kind: 'hidden', frame: state.frame, mark: mark.id })
}

/** After a mark the next frame comes by itself; at the end those that were left out. */
function see(store: BenchStore, sighting: PlacedSighting): void {
  const { edit, set, frame, marks } = store.getState()
  if (!edit('stage', { kind: 'place-sighting', sighting })) return
  set({ cursor: null, cursorBearingDeg: null })
  if (frame >= marks.window.fromFrame && frame < marks.window.toFrame) goTo(store, frame + 1)
  else goToUnmarked(store)
}

/** Takes the followed mark off this frame again. */
export function takeOffMark(store: BenchStore): void {
  const state = store.getState()
  const { frame, edit } = state
  const mark = followed(state)
  if (mark && sightingOf(state, frame, mark.id))
    edit('stage', { kind: 'remove-sighting', frame, mark: mark.id })
}
