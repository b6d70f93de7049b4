import { useEffect, useRef } from 'react'
import type { PlanSetUp } from '../../../core/contract/plan.ts'
import { drawnBall } from '../../../core/planning/drawn-ball.ts'

const frames = [0, 1, 2]
/** A ball larger than this is drawn as if it were farther away: more pixels show nothing more. */
const mostPx = 240

/** The ball as this camera would see it in three frames running, pixel for pixel. */
export function BallFrames({ setUp, diameterPx }: { setUp: PlanSetUp; diameterPx: number }) {
  const shrink = Math.max(1, diameterPx / mostPx)
  return (
    <figure className="foreseen-balls">
      <div>
        {frames.map(frame => (
          <BallFrame
            key={frame}
            setUp={{ ...setUp, focalLengthPx: setUp.focalLengthPx / shrink }}
            frame={frame}
          />
        ))}
      </div>
      <figcaption className="quiet">
        As this camera would see it, three frames running, {Math.round(diameterPx)} px across
      </figcaption>
    </figure>
  )
}

function BallFrame({ setUp, frame }: { setUp: PlanSetUp; frame: number }) {
  const canvas = useRef<HTMLCanvasElement>(null)
  useEffect(() => {
    const context = canvas.current?.getContext('2d')
    if (!canvas.current || !context) return
    const { widthPx, heightPx, luma } = drawnBall(setUp, frame)
    canvas.current.width = widthPx
    canvas.current.height = heightPx
    const picture = context.createImageData(widthPx, heightPx)
    for (let i = 0; i < luma.length; i++) picture.data.set([luma[i]!, luma[i]!, luma[i]!, 255], 4 * i)
    context.putImageData(picture, 0, 0)
  }, [setUp, frame])
  return <canvas ref={canvas} role="img" aria-label={`Frame ${frame + 1}`} />
}
