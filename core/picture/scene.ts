/**
 * A picture as a list of plain shapes, drawn in order. Lengths are px of the picture, x right, y down;
 * colours are `#rrggbb`. It knows no file format: `svg-of.ts` writes it as SVG, the host draws it into a PDF.
 */
export type Scene = {
  widthPx: number
  heightPx: number
  /** What ears are told of the picture. */
  title: string
  /** What lies behind it; null lets the page show through. */
  paper: string | null
  shapes: Shape[]
}

type Stroke = { stroke?: string; strokePx?: number; dash?: readonly number[] }
type Fill = { fill?: string; opacity?: number }
export type Anchor = 'start' | 'middle' | 'end'

export type Shape =
  | ({ kind: 'line'; x1: number; y1: number; x2: number; y2: number } & Stroke)
  | ({ kind: 'rect'; x: number; y: number; width: number; height: number } & Fill & Stroke)
  | ({ kind: 'circle'; x: number; y: number; r: number } & Fill & Stroke)
  /** `d` holds absolute M, L, A and Z only. */
  | ({ kind: 'path'; d: string } & Fill & Stroke)
  | {
      kind: 'text'
      /** On the baseline. */
      x: number
      y: number
      text: string
      sizePx: number
      fill: string
      anchor?: Anchor
      bold?: boolean
      /** Reads upwards. */
      upright?: boolean
      /** Drawn behind the letters, where they lie over a photograph. */
      halo?: string
    }
  | { kind: 'image'; x: number; y: number; width: number; height: number; pngBase64: string }
  /** Shapes of which only what lies inside the rectangle is seen. */
  | { kind: 'inside'; x: number; y: number; width: number; height: number; shapes: Shape[] }
