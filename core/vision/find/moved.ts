import type { Seen } from './track.ts'

/** What moved in a stretch of a clip, flight or not: what a person is told of where no ball was found. */
export type Moved = {
  /** Frames in which something moved against the background, in order. */
  moving: number[]
  /** How far the middle of all that moved went, as a share of the picture's width. */
  reach: number
  /** Share of the picture that moved in a frame, the largest of all. */
  largest: number
}

export const nothingMoved: Moved = { moving: [], reach: 0, largest: 0 }

/** What is seen where no two frames are of one view. */
export const allMoved = (frames: number[]): Moved => ({ moving: frames, reach: 1, largest: 1 })

/** `seen` in px of pictures of the given size. */
export function movedIn(
  seen: readonly Seen[],
  { widthPx, heightPx }: { widthPx: number; heightPx: number },
): Moved {
  const byFrame = new Map<number, { areaPx: number; x: number; y: number }>()
  for (const { frame, areaPx, xPx, yPx } of seen) {
    const sum = byFrame.get(frame) ?? { areaPx: 0, x: 0, y: 0 }
    byFrame.set(frame, {
      areaPx: sum.areaPx + areaPx,
      x: sum.x + areaPx * xPx,
      y: sum.y + areaPx * yPx,
    })
  }
  if (byFrame.size === 0) return nothingMoved
  const sums = [...byFrame.values()]
  const range = (of: readonly number[]) => Math.max(...of) - Math.min(...of)
  const [across, down] = [range(sums.map(s => s.x / s.areaPx)), range(sums.map(s => s.y / s.areaPx))]
  return {
    moving: [...byFrame.keys()],
    reach: Math.hypot(across, down) / widthPx,
    largest: Math.max(...sums.map(s => s.areaPx)) / (widthPx * heightPx),
  }
}

/** Of two stretches of one clip, which may share frames. */
export const movedInBoth = (a: Moved, b: Moved): Moved => ({
  moving: [...new Set([...a.moving, ...b.moving])],
  reach: Math.max(a.reach, b.reach),
  largest: Math.max(a.largest, b.largest),
})
