import type { Outline } from '../../../../core/contract/marks.ts'
import { WhorlError } from '../../../../core/contract/problem.ts'
import { circleFromRim } from '../../../../core/geometry/circle-from-rim.ts'
import type { PicturePoint } from './bench-state.ts'
import type { BenchStore } from './bench-store.ts'
import { goTo } from './going.ts'
import { nextOutlineFrame } from './guide.ts'
import { followMark } from './marking.ts'
import { followed, outlineOf, placedOutline } from './seen.ts'

/** Radius that the ball is taken for while nobody knows it, as a share of the picture's height. */
const closeUp = 1 / 10
const smallestRadiusPx = 2

/** Shows this frame's circle to be adjusted; asked for again, takes three new points. */
export function workOnRim(store: BenchStore): void {
  const state = store.getState()
  const outline = outlineOf(state, state.frame)
  const again = state.mode === 'outline' || !outline
  const rim = again ? { points: [], near: outline } : null
  state.set({ mode: 'outline', playing: false, rim, cursor: null })
}

/** Comes closer to a part of the whole picture, so that rim points can be placed well. */
export function comeCloser(store: BenchStore, at: PicturePoint): void {
  const state = store.getState()
  const known = outlineOf(state, state.frame)?.radiusPx
  const radiusPx = known ?? (state.clip.probe?.heightPx ?? 100) * closeUp
  state.set({ rim: { points: [], near: { ...at, radiusPx } } })
}

/** The third point makes the circle. */
export function addRimPoint(store: BenchStore, at: PicturePoint): void {
  const { rim, set } = store.getState()
  if (!rim) return
  const points = [...rim.points, at]
  const [a, b, c] = points
  set({ rim: { ...rim, points }, problem: null })
  if (!a || !b || !c) return
  const { circle, reason } = circleFromRim(a, b, c)
  if (circle) placeOutline(store, circle)
  else {
    const problem = new WhorlError('edit-refused', { what: reason, hint: 'Place the three points again.' })
    set({ rim: { ...rim, points: [] }, problem: { place: 'stage', problem: problem.toProblem() } })
  }
}

/** Saves the ball's circle in this frame and goes where the next one is wanted, or on to the mark. */
export function placeOutline(store: BenchStore, outline: Outline): void {
  const { edit, frame, set } = store.getState()
  if (!edit('stage', { kind: 'place-outline', outline: { frame, ...outline } })) return
  set({ rim: null, cursor: null })
  const { marks } = store.getState()
  const next = nextOutlineFrame(marks.outlines, marks.window)
  if (next === null) {
    followMark(store)
    const mark = followed(store.getState())
    if (marks.sightings.every(seen => seen.mark !== mark?.id)) goTo(store, marks.window.fromFrame)
  } else goTo(store, next)
}

/** Shows the circle of this frame as it is dragged; nothing is saved yet. */
export function dragOutline(store: BenchStore, change: (from: Outline) => Outline): void {
  const state = store.getState()
  const from = state.dragged?.from ?? outlineOf(state, state.frame)
  if (!from) return
  const outline = change(from)
  outline.radiusPx = Math.max(smallestRadiusPx, outline.radiusPx)
  state.set({ dragged: { frame: state.frame, from, outline } })
}

/** Saves the dragged circle where it was let go. */
export function dropOutline(store: BenchStore): void {
  const { dragged, edit, set } = store.getState()
  if (!dragged) return
  edit('stage', { kind: 'place-outline', outline: { frame: dragged.frame, ...dragged.outline } })
  set({ dragged: null })
}

/** Moves or resizes the circle of this frame by one step of the keyboard. */
export function nudgeOutline(store: BenchStore, change: (from: Outline) => Outline): void {
  dragOutline(store, change)
  dropOutline(store)
}

/** Takes the last rim point off again, then the close look, or this frame's placed circle. */
export function takeOffRim(store: BenchStore): void {
  const state = store.getState()
  const { rim, frame, set, edit } = state
  if (rim && rim.points.length > 0) set({ rim: { ...rim, points: rim.points.slice(0, -1) } })
  else if (rim) set({ rim: { points: [], near: null }, cursor: null })
  else if (placedOutline(state, frame)) edit('stage', { kind: 'remove-outline', frame })
}
