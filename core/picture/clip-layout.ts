import type { ClipView } from '../contract/publish.ts'

/** A rectangle of the annotated clip, px. */
export type Rect = { x: number; y: number; width: number; height: number }
export type ClipLayout = {
  widthPx: number
  heightPx: number
  frame: Rect | null
  ball: Rect | null
  panel: Rect
}

const even = (px: number) => 2 * Math.round(px / 2)

/**
 * Where whole frame, ball and words stand. Sizes are even, as H.264 with 4:2:0 asks. The words lie over the
 * foot of the picture; in portrait, 9:16, they have a place of their own below.
 */
export function clipLayout(
  view: ClipView,
  clip: { widthPx: number; heightPx: number },
  shortPx: number,
): ClipLayout {
  const short = even(shortPx)
  const wide = even((short * clip.widthPx) / clip.heightPx)
  const square = { width: short, height: short }
  const foot = (width: number, height: number): Rect => {
    const panel = even(short * 0.1)
    return { x: 0, y: height - panel, width, height: panel }
  }
  switch (view) {
    case 'frame':
      return {
        ...{ widthPx: wide, heightPx: short, ball: null, panel: foot(wide, short) },
        frame: { x: 0, y: 0, width: wide, height: short },
      }
    case 'ball':
      return {
        ...{ widthPx: short, heightPx: short, frame: null, panel: foot(short, short) },
        ball: { x: 0, y: 0, ...square },
      }
    case 'both':
      return {
        ...{ widthPx: wide + short, heightPx: short, panel: foot(wide + short, short) },
        frame: { x: 0, y: 0, width: wide, height: short },
        ball: { x: wide, y: 0, ...square },
      }
    case 'portrait': {
      const heightPx = even((short * 16) / 9)
      const height = Math.min(even((short * clip.heightPx) / clip.widthPx), even(short * 0.58))
      const width = even((height * clip.widthPx) / clip.heightPx)
      const below = height + short
      return {
        ...{ widthPx: short, heightPx },
        frame: { x: even((short - width) / 2), y: 0, width, height },
        ball: { x: 0, y: height, ...square },
        panel: { x: 0, y: below, width: short, height: heightPx - below },
      }
    }
  }
}
