import { ballView, type Size, type View, wholeView } from '../picture/view.ts'
import type { BenchState } from '../state/bench-state.ts'
import { outlineOf } from '../state/seen.ts'

/** Room around the ball for the dial, screen pixels. */
const dialRoom = 44
/** Radius of the ball on the stage, screen pixels. */
export const ballRadiusOn = (stage: Size): number =>
  Math.max(20, Math.min(stage.width, stage.height) / 2 - dialRoom)

/** While rim points are placed the ball is smaller, so that one guessed wrong is still all there. */
export const nearShare = 0.65

/** `disc` is the radius around the middle that is left of the picture, screen pixels; null for all of it. */
export type Shown = { kind: 'whole' | 'near' | 'ball'; view: View; disc: number | null }
/** From the rim to the dial's ring: just enough beside the ball to judge its rim by. */
export const ringRoom = 10

/** What the stage shows: the ball where it is known, the whole picture where it has to be found first. */
export function shownOn(state: BenchState, stage: Size): Shown {
  const probe = state.clip.probe
  const picture = { width: probe?.widthPx ?? 16, height: probe?.heightPx ?? 9 }
  const radius = ballRadiusOn(stage)
  if (state.rim) {
    const near = state.rim.near
    return near
      ? { kind: 'near', view: ballView(near, stage, radius * nearShare), disc: null }
      : { kind: 'whole', view: wholeView(picture, stage), disc: null }
  }
  // While the circle is dragged the ball must stay where it is under it.
  const outline = state.dragged?.from ?? outlineOf(state, state.frame)
  return outline
    ? {
        kind: 'ball',
        view: ballView(outline, stage, radius),
        disc: state.mode === 'mark' ? radius + ringRoom : null,
      }
    : { kind: 'whole', view: wholeView(picture, stage), disc: null }
}
