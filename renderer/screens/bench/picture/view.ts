import type { Outline } from '../../../../core/contract/marks.ts'

export type Size = { width: number; height: number }
export type Point = { x: number; y: number }

/**
 * What part of the picture a stage shows: the picture point at the stage's middle, and how many screen
 * pixels one picture pixel takes. Every mapping between the two goes through it.
 */
export type View = { xPx: number; yPx: number; scale: number; stage: Size }

/** Holds the ball in the middle at `ballRadius` screen pixels, whatever it does in the picture. */
export const ballView = (outline: Outline, stage: Size, ballRadius: number): View => ({
  xPx: outline.xPx,
  yPx: outline.yPx,
  scale: ballRadius / outline.radiusPx,
  stage,
})

/** The whole picture, as large as the stage takes. */
export const wholeView = (picture: Size, stage: Size): View => ({
  xPx: picture.width / 2,
  yPx: picture.height / 2,
  scale: Math.min(stage.width / picture.width, stage.height / picture.height),
  stage,
})

/** Picture pixels to screen pixels of the stage. */
export const toScreen = (view: View, xPx: number, yPx: number): Point => ({
  x: (xPx - view.xPx) * view.scale + view.stage.width / 2,
  y: (yPx - view.yPx) * view.scale + view.stage.height / 2,
})

/** Screen pixels of the stage to picture pixels. */
export const toPicture = (view: View, at: Point): { xPx: number; yPx: number } => ({
  xPx: (at.x - view.stage.width / 2) / view.scale + view.xPx,
  yPx: (at.y - view.stage.height / 2) / view.scale + view.yPx,
})

/** The rectangle of the picture that fills the stage; parts of it may lie outside the picture. */
export function shownPart(view: View): { x: number; y: number; width: number; height: number } {
  const width = view.stage.width / view.scale
  const height = view.stage.height / view.scale
  return { x: view.xPx - width / 2, y: view.yPx - height / 2, width, height }
}
