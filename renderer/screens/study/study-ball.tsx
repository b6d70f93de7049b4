import { useLayoutEffect, useRef, useState } from 'react'
import type { StudySeen, StudyTask } from '../../../core/contract/study.ts'
import { bearingDegOf } from '../../../core/picture/bearing-of.ts'
import { ProblemNote } from '../../components/problem-note.tsx'
import { Progress } from '../../components/progress.tsx'
import { problemShown } from '../../host/host.ts'
import { useKeys } from '../../state/keys.ts'
import { drawView } from '../bench/picture/draw-view.ts'
import { ballView, type Point, toPicture, toScreen } from '../bench/picture/view.ts'
import { CrosshairLines } from '../bench/stage/crosshair.tsx'
import { DialRing } from '../bench/stage/dial.tsx'
import { LineOnBall } from '../bench/stage/line-on-ball.tsx'
import { ballRadiusOn, ringRoom } from '../bench/stage/shown-on.ts'
import { useSize } from '../bench/use-size.ts'
import type { TaskPicture } from './use-pictures.ts'

type StudyBallProps = {
  task: StudyTask
  picture: TaskPicture
  name: string
  onSeen: (seen: StudySeen) => void
}

const arrows = ['ArrowLeft', 'ArrowRight', 'ArrowUp', 'ArrowDown']
/** One press of an arrow, px of the picture and degrees of a line, as on the bench. */
const stepPx = 0.5
const stepDeg = 1

/** The ball as on the bench, at the same size and with the same crop, and nothing on it. */
export function StudyBall({ task, picture, name, onSeen }: StudyBallProps) {
  const element = useRef<HTMLDivElement>(null)
  const canvas = useRef<HTMLCanvasElement>(null)
  const stage = useSize(element)
  const { outline, mark } = task
  const [cursor, setCursor] = useState<{ xPx: number; yPx: number } | null>(null)
  const [lineDeg, setLineDeg] = useState<number | null>(null)
  const radius = ballRadiusOn(stage)
  const view = ballView(outline, stage, radius)
  const centre: Point = { x: stage.width / 2, y: stage.height / 2 }
  const isPoint = mark.kind === 'point'
  const { bitmap, failure } = picture

  useLayoutEffect(() => {
    if (canvas.current && stage.width > 0)
      drawView(canvas.current, bitmap, ballView(outline, stage, radius), radius + ringRoom)
  }, [bitmap, outline, stage, radius])

  const pointOf = (event: React.MouseEvent) => {
    const box = event.currentTarget.getBoundingClientRect()
    return toPicture(view, { x: event.clientX - box.left, y: event.clientY - box.top })
  }
  const bearingOf = ({ xPx, yPx }: { xPx: number; yPx: number }) =>
    bearingDegOf(xPx - outline.xPx, yPx - outline.yPx)
  const see = (at: { xPx: number; yPx: number }) => {
    // What has not been seen yet cannot be marked; a click on the picture before must not count for this one.
    if (bitmap === null) return
    onSeen(isPoint ? { kind: 'point', ...at } : { kind: 'direction', bearingDeg: bearingOf(at) })
  }
  const move = ({ key }: KeyboardEvent, times: number) => {
    const dx = (key === 'ArrowRight' ? 1 : key === 'ArrowLeft' ? -1 : 0) * times
    const dy = (key === 'ArrowDown' ? 1 : key === 'ArrowUp' ? -1 : 0) * times
    if (isPoint)
      setCursor(last => ({
        xPx: (last ?? outline).xPx + dx * stepPx,
        yPx: (last ?? outline).yPx + dy * stepPx,
      }))
    else setLineDeg(last => (last ?? 0) + (dx + dy) * stepDeg)
  }
  const placeHere = () => {
    if (isPoint) return cursor && see(cursor)
    if (lineDeg !== null && bitmap !== null)
      onSeen({ kind: 'direction', bearingDeg: ((lineDeg % 360) + 360) % 360 })
  }
  useKeys('On the ball', [
    { keys: arrows, word: 'move the crosshair or the line', run: event => move(event, 1) },
    { keys: arrows.map(key => `Shift+${key}`), word: 'ten times as far', run: event => move(event, 10) },
    { keys: ['Enter'], word: 'place it there', run: placeHere },
  ])

  return (
    // biome-ignore lint/a11y/useSemanticElements: a place to point at, not a fieldset.
    <div
      ref={element}
      className="ball-stage"
      role="group"
      aria-label={name}
      data-ready={bitmap !== null}
      // For tests to aim by, as on the bench.
      data-x-px={view.xPx}
      data-y-px={view.yPx}
      data-scale={view.scale}
      // biome-ignore lint/a11y/noNoninteractiveTabindex: the crosshair's keys work here, and focus shows it.
      tabIndex={0}
      // The second click of a double click would mark the next picture before it is looked at.
      onMouseDown={event => event.button === 0 && event.detail < 2 && see(pointOf(event))}
      onPointerMove={event => !isPoint && setLineDeg(bearingOf(pointOf(event)))}
    >
      <canvas ref={canvas} className="ball-canvas" />
      <svg className="ball-overlay" width={stage.width} height={stage.height} aria-hidden="true">
        <g className="dial">
          <DialRing x={centre.x} y={centre.y} ring={radius + ringRoom} />
        </g>
        {lineDeg !== null && <LineOnBall centre={centre} radius={radius} deg={lineDeg} mark={mark} laying />}
        <g className="crosshair">
          {cursor && <CrosshairLines at={toScreen(view, cursor.xPx, cursor.yPx)} />}
        </g>
      </svg>
      {bitmap === null && (
        <div className="stage-note">
          {failure ? (
            <ProblemNote problem={problemShown(failure)} />
          ) : (
            <Progress progress={null} what="The picture is being decoded" />
          )}
        </div>
      )}
    </div>
  )
}
