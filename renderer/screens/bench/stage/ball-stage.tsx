import { useRef } from 'react'
import { bearingDegOf } from '../../../../core/picture/bearing-of.ts'
import { toPicture } from '../picture/view.ts'
import { placeAt } from '../state/place.ts'
import { followed, outlineOf } from '../state/seen.ts'
import { useBench, useBenchStore } from '../state/use-bench.ts'
import { useSize } from '../use-size.ts'
import { BallCanvas } from './ball-canvas.tsx'
import { Crosshair } from './crosshair.tsx'
import { Dial } from './dial.tsx'
import { OnBall } from './on-ball.tsx'
import { OutlineRing } from './outline-ring.tsx'
import { ballRadiusOn, shownOn } from './shown-on.ts'
import { StageWait } from './stage-wait.tsx'
import { stageWords } from './stage-words.ts'

/** The middle of the bench: the ball, always here, always this size, with the dial of bearings around it. */
export function BallStage() {
  const element = useRef<HTMLDivElement>(null)
  const stage = useSize(element)
  const store = useBenchStore()
  const state = useBench(all => all)
  const { kind, view } = shownOn(state, stage)
  const centre = { x: stage.width / 2, y: stage.height / 2 }

  const pointOf = (event: React.MouseEvent) => {
    const box = event.currentTarget.getBoundingClientRect()
    return toPicture(view, { x: event.clientX - box.left, y: event.clientY - box.top })
  }
  /** The line of a direction mark follows the pointer until it is laid. */
  const onPointerMove = (event: React.PointerEvent) => {
    const outline = outlineOf(state, state.frame)
    if (state.mode !== 'mark' || followed(state)?.kind !== 'direction' || !outline) return
    const { xPx, yPx } = pointOf(event)
    state.set({ cursorBearingDeg: bearingDegOf(xPx - outline.xPx, yPx - outline.yPx) })
  }
  const onWheel = (event: React.WheelEvent) => {
    const { rim } = state
    if (!rim?.near) return
    const radiusPx = rim.near.radiusPx * Math.exp(event.deltaY / 500)
    state.set({ rim: { ...rim, near: { ...rim.near, radiusPx } } })
  }

  return (
    // biome-ignore lint/a11y/useSemanticElements: a place to point at, not a fieldset.
    <div
      ref={element}
      className="ball-stage"
      role="group"
      aria-label={stageWords(state)}
      data-shows={kind}
      // Which picture point is in the middle and how many screen pixels a picture pixel takes: for tests to aim by.
      data-x-px={view.xPx}
      data-y-px={view.yPx}
      data-scale={view.scale}
      // biome-ignore lint/a11y/noNoninteractiveTabindex: the crosshair's keys work here, and focus shows it.
      tabIndex={0}
      onPointerDown={event => event.button === 0 && placeAt(store, pointOf(event))}
      onPointerMove={onPointerMove}
      onWheel={onWheel}
    >
      <BallCanvas stage={stage} />
      <svg className="ball-overlay" width={stage.width} height={stage.height} aria-hidden="true">
        {kind === 'ball' && <OutlineRing view={view} />}
        {kind === 'ball' && state.mode === 'mark' && (
          <>
            <Dial centre={centre} ballRadius={ballRadiusOn(stage)} />
            <OnBall view={view} />
          </>
        )}
        <Crosshair view={view} />
      </svg>
      <StageWait frame={state.frame} />
    </div>
  )
}
