import type { CallContext } from '../../core/contract/calls.ts'
import { WhorlError } from '../../core/contract/problem.ts'
import type { ClipOrder } from '../../core/contract/publish.ts'
import { outlineAt } from '../../core/marking/outline-at.ts'
import { bearingOf } from '../../core/picture/bearing-of.ts'
import { clipLayout, type Rect } from '../../core/picture/clip-layout.ts'
import {
  ballMarks,
  clipCounter,
  clipPanel,
  clipWords,
  type DrawnBall,
} from '../../core/picture/clip-marks.ts'
import { figuresIn } from '../../core/picture/figure-text.ts'
import type { Scene } from '../../core/picture/scene.ts'
import type { Media } from '../media/media.ts'
import type { HitEvidence } from './hit-evidence.ts'
import { blankCanvas, type Canvas, drawPart, type Layer, lay } from './i420-canvas.ts'
import { rgbaOf } from './png-of.ts'

/** A part of the clip (its px) shown in a part of the annotated one. */
type Shown = { from: Rect; to: Rect }
export type ClipDrawing = {
  widthPx: number
  heightPx: number
  /** Real seconds since the hit's first frame. */
  secondsAt(frame: number): number
  /** A frame of the clip with its marks and words. The canvas is drawn over by the next one. */
  draw(frame: number, signal: CallContext['signal']): Promise<Canvas>
}

/** Draws a hit's frames as its annotated clip shows them. Throws `hit-no-outline`. */
export function clipDrawing(media: Media, hit: HitEvidence, order: ClipOrder): ClipDrawing {
  const { clip, window } = hit
  if (hit.captureFps === null || outlineAt(hit.marks, window.fromFrame, hit.timesSeconds) === null)
    throw new WhorlError('hit-no-outline', { clip: clip.name })
  const { widthPx, heightPx, ...layout } = clipLayout(order.view, clip.probe!, order.shortPx)
  const words = clipWords(layout.panel, order.fontPx, figuresIn(order.figures))
  const panel = rendered(clipPanel(layout.panel, hit.name, hit.reading, words))
  const canvas = blankCanvas(widthPx, heightPx)
  return { widthPx, heightPx, secondsAt, draw }

  async function draw(frame: number, signal: CallContext['signal']): Promise<Canvas> {
    const picture = await media.frame(clip.path, frame, { signal })
    for (const { from, to } of partsOf(frame)) {
      drawPart(canvas, picture, from, to)
      laySceneInside(canvas, ballMarks(drawnBall(hit, frame, { from, to }), order.ink), to)
    }
    picture.done?.()
    lay(canvas, panel, layout.panel.x, layout.panel.y)
    const counter = clipCounter(turnsAt(frame), secondsAt(frame), words)
    const below = layout.panel.y + layout.panel.height
    const isTall = layout.panel.height > 4 * counter.heightPx
    lay(
      canvas,
      rendered(counter),
      isTall ? layout.panel.x : widthPx - counter.widthPx,
      Math.round(
        isTall ? below - 1.6 * counter.heightPx : below - (layout.panel.height + counter.heightPx) / 2,
      ),
    )
    return canvas
  }

  function partsOf(frame: number): Shown[] {
    const { widthPx: width, heightPx: height } = clip.probe!
    const outline = outlineAt(hit.marks, frame, hit.timesSeconds)!
    const half = outline.radiusPx * 1.6
    return [
      ...(layout.frame ? [{ from: { x: 0, y: 0, width, height }, to: layout.frame }] : []),
      ...(layout.ball
        ? [
            {
              from: { x: outline.xPx - half, y: outline.yPx - half, width: 2 * half, height: 2 * half },
              to: layout.ball,
            },
          ]
        : []),
    ]
  }

  function secondsAt(frame: number): number {
    return (hit.timesSeconds[frame] ?? 0) - (hit.timesSeconds[window.fromFrame] ?? 0)
  }
  function turnsAt(frame: number): number | null {
    return hit.reading.rpm === null ? null : (hit.reading.rpm / 60) * secondsAt(frame)
  }
}

/** The ball of a frame in px of the annotated clip. */
function drawnBall(
  { marks, timesSeconds, reading }: HitEvidence,
  frame: number,
  { from, to }: Shown,
): DrawnBall {
  const scale = to.width / from.width
  const outline = outlineAt(marks, frame, timesSeconds)!
  const x = (xPx: number) => to.x + (xPx - from.x) * scale
  const y = (yPx: number) => to.y + (yPx - from.y) * scale
  return {
    outline: { xPx: x(outline.xPx), yPx: y(outline.yPx), radiusPx: outline.radiusPx * scale },
    axis: reading.axis,
    marks: marks.sightings.flatMap(seen => {
      const bearingDeg = seen.frame === frame ? bearingOf(seen, outline) : null
      if (bearingDeg === null) return []
      const isPoint = seen.kind === 'point'
      return [{ bearingDeg, xPx: isPoint ? x(seen.xPx) : null, yPx: isPoint ? y(seen.yPx) : null }]
    }),
  }
}

/** Lays the ball's marks over its part of the canvas; what would reach into another part is cut off. */
function laySceneInside(canvas: Canvas, { x, y, scene }: ReturnType<typeof ballMarks>, part: Rect): void {
  const layer = rendered(scene)
  for (let row = 0; row < layer.heightPx; row++)
    for (let column = 0; column < layer.widthPx; column++) {
      const isIn =
        x + column >= part.x &&
        x + column < part.x + part.width &&
        y + row >= part.y &&
        y + row < part.y + part.height
      if (!isIn)
        layer.data.fill(0, (row * layer.widthPx + column) * 4, (row * layer.widthPx + column) * 4 + 4)
    }
  lay(canvas, layer, x, y)
}

const rendered = (scene: Scene): Layer => ({
  widthPx: scene.widthPx,
  heightPx: scene.heightPx,
  data: rgbaOf(scene),
})
