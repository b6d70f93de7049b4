import type { BenchState, PicturePoint } from './bench-state.ts'
import type { BenchStore } from './bench-store.ts'
import { layLine, placeMark, takeOffMark } from './marking.ts'
import { addRimPoint, comeCloser, placeOutline, takeOffRim } from './rim.ts'
import { crosshairOf, followed, lineBearingOf, outlineOf, placedOutline, sightingOf } from './seen.ts'

/** Places whatever the stage asks for just now at a point of the picture. */
export function placeAt(store: BenchStore, at: PicturePoint): void {
  const { rim, mode } = store.getState()
  if (rim?.near) addRimPoint(store, at)
  else if (rim) comeCloser(store, at)
  else if (mode === 'mark') placeMark(store, at)
}

/** Enter: places at the crosshair, lays the line, or keeps the circle that is shown. */
export function placeHere(store: BenchStore): void {
  const state = store.getState()
  const outline = outlineOf(state, state.frame)
  if (state.rim) placeAt(store, crosshairOf(state))
  else if (state.mode === 'outline' && outline) placeOutline(store, outline)
  else if (followed(state)?.kind === 'direction') layLine(store, lineBearingOf(state))
  else placeAt(store, crosshairOf(state))
}

/** Takes off what was last placed in this frame. */
export function takeOff(store: BenchStore): void {
  if (store.getState().mode === 'outline') takeOffRim(store)
  else takeOffMark(store)
}

/** Whether there is anything in this frame to take off. */
export function canTakeOff(state: BenchState): boolean {
  const mark = followed(state)
  if (state.rim) return state.rim.near !== null
  if (state.mode === 'outline') return placedOutline(state, state.frame) !== null
  return mark !== null && sightingOf(state, state.frame, mark.id) !== null
}
