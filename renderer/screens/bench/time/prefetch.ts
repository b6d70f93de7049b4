import { useEffect } from 'react'
import { picturesAlong, pictureWidth, type TimeAxis } from '../../../../core/picture/time-axis.ts'
import { loadingOrder } from '../picture/loading-order.ts'
import { useFrames } from '../picture/use-frames.ts'
import { useBench } from '../state/use-bench.ts'

/** Frames kept ready on either side of the current one when a long clip is shown whole. */
const nearby = 24

/** Has ready what is looked at, what steps come next, and the pictures of the strip. */
export function usePrefetch(axis: TimeAxis): void {
  const { near, far } = useFrames()
  const frame = useBench(state => state.frame)
  const direction = useBench(state => state.direction)
  useEffect(() => {
    const isLong = axis.toFrame - axis.fromFrame > 4 * nearby
    const range = isLong
      ? { fromFrame: Math.max(0, frame - nearby), toFrame: Math.min(axis.toFrame, frame + nearby) }
      : axis
    const order = loadingOrder(frame, direction, range, near.room)
    near.want(order)
    far.want(picturesAlong(axis, pictureWidth(axis)).filter(each => !order.includes(each)))
  }, [near, far, frame, direction, axis])
}
