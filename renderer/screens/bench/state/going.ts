import { beginStep } from '../picture/step-times.ts'
import type { BenchStore } from './bench-store.ts'
import { nextUnmarkedFrame } from './guide.ts'
import { followed, isBallBetween } from './seen.ts'

/** Goes to a frame of the clip; what was being placed in the last one is left behind. */
export function goTo(store: BenchStore, frame: number): void {
  const state = store.getState()
  const inClip = Math.min(Math.max(frame, 0), state.timesSeconds.length - 1)
  if (inClip === state.frame) return
  beginStep()
  state.set({
    frame: inClip,
    direction: inClip > state.frame ? 1 : -1,
    cursor: null,
    cursorBearingDeg: null,
    dragged: null,
    rim: rimFor(store, inClip),
  })
}

/** In the rim's mode a frame beyond the outlines starts with the whole picture: the ball has to be found. */
function rimFor(store: BenchStore, frame: number) {
  const state = store.getState()
  const lost = state.marks.outlines.length === 0 || !isBallBetween(state, frame)
  return state.mode === 'outline' && lost ? { points: [], near: null } : null
}

export const step = (store: BenchStore, by: number) => goTo(store, store.getState().frame + by)
export const goToFirst = (store: BenchStore) => goTo(store, store.getState().marks.window.fromFrame)
export const goToLast = (store: BenchStore) => goTo(store, store.getState().marks.window.toFrame)

/** The next frame in which the followed mark was not looked for; stays when there is none. */
export function goToUnmarked(store: BenchStore): void {
  const state = store.getState()
  const mark = followed(state)
  const frame = mark && nextUnmarkedFrame(state.marks, mark.id, state.frame)
  if (frame !== null) goTo(store, frame)
}

/** One frame further in the hit, from its last to its first again. */
export function runOn(store: BenchStore): void {
  const { frame, marks } = store.getState()
  const { fromFrame, toFrame } = marks.window
  goTo(store, frame >= toFrame || frame < fromFrame ? fromFrame : frame + 1)
}
