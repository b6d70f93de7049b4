/** A circle in the picture, pixels as shown (x right, y down). */
export type Circle = { xPx: number; yPx: number; radiusPx: number }
