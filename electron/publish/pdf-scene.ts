import type { Scene, Shape } from '../../core/picture/scene.ts'
import { ascent, drawLine, widthOf } from './pdf-text.ts'

/** Draws a scene with its top left at (x, y), `scale` points a pixel: the same shapes as in the SVG, as vectors. */
export function drawScene(pdf: PDFKit.PDFDocument, scene: Scene, x: number, y: number, scale: number): void {
  pdf.save()
  pdf.translate(x, y).scale(scale)
  for (const shape of scene.shapes) drawShape(pdf, shape)
  pdf.restore()
}

function drawShape(pdf: PDFKit.PDFDocument, shape: Shape): void {
  switch (shape.kind) {
    case 'line':
      painted(pdf.moveTo(shape.x1, shape.y1).lineTo(shape.x2, shape.y2), shape)
      return
    case 'rect':
      painted(pdf.rect(shape.x, shape.y, shape.width, shape.height), shape)
      return
    case 'circle':
      painted(pdf.circle(shape.x, shape.y, shape.r), shape)
      return
    case 'path':
      painted(pdf.path(shape.d), shape)
      return
    case 'text':
      drawText(pdf, shape)
      return
    case 'image': {
      const { x, y, width, height } = shape
      pdf.image(Buffer.from(shape.pngBase64, 'base64'), x, y, { width, height })
      return
    }
    case 'inside':
      pdf.save()
      pdf.rect(shape.x, shape.y, shape.width, shape.height).clip()
      for (const one of shape.shapes) drawShape(pdf, one)
      pdf.restore()
  }
}

type Paint = { fill?: string; opacity?: number; stroke?: string; strokePx?: number; dash?: readonly number[] }

function painted(pdf: PDFKit.PDFDocument, { fill, opacity = 1, stroke, strokePx = 1, dash }: Paint): void {
  pdf.lineWidth(strokePx)
  if (dash) pdf.dash(dash[0]!, { space: dash[1] })
  if (fill && stroke) pdf.fillOpacity(opacity).fillAndStroke(fill, stroke)
  else if (fill) pdf.fillOpacity(opacity).fill(fill)
  else if (stroke) pdf.stroke(stroke)
  if (dash) pdf.undash()
  pdf.fillOpacity(1)
}

function drawText(pdf: PDFKit.PDFDocument, shape: Shape & { kind: 'text' }): void {
  const { x, y, text, sizePx, bold, fill, anchor = 'start', upright } = shape
  const style = { sizePt: sizePx, bold, colour: fill }
  const width = widthOf(pdf, text, style)
  const left = -{ start: 0, middle: width / 2, end: width }[anchor]
  pdf.save()
  pdf.translate(x, y)
  if (upright) pdf.rotate(-90)
  drawLine(pdf, text, left, -ascent * sizePx, style)
  pdf.restore()
}
