import { shownPart, type View } from './view.ts'

type Drawable = CanvasImageSource & { width: number; height: number }

/**
 * Draws the part of the picture that a view shows; beyond the picture's edge the surround stays. With a
 * disc, screen pixels, only what lies within that radius of the middle: nothing but the ball is looked at.
 */
export function drawView(
  canvas: HTMLCanvasElement,
  picture: Drawable | null,
  view: View,
  disc: number | null = null,
): void {
  const context = canvas.getContext('2d')
  if (!context) return
  const density = window.devicePixelRatio || 1
  const width = Math.round(view.stage.width * density)
  const height = Math.round(view.stage.height * density)
  if (canvas.width !== width || canvas.height !== height) Object.assign(canvas, { width, height })
  context.clearRect(0, 0, width, height)
  if (!picture) return
  const part = shownPart(view)
  context.imageSmoothingQuality = 'high'
  context.save()
  if (disc !== null) {
    context.beginPath()
    context.arc(width / 2, height / 2, disc * density, 0, 2 * Math.PI)
    context.clip()
  }
  context.drawImage(picture, part.x, part.y, part.width, part.height, 0, 0, width, height)
  context.restore()
}
