import type { PlanSetUp } from '../contract/plan.ts'

export type Lens = { fNumber: number; sensorWidthMetres: number }

/** A point that is out of focus may spread over so many pixels: a click is no worse for it (common practice, no source). */
const blurPx = 2

/**
 * From where to where a lens that is focused on the ball draws it sharp; `farMetres` is null where that goes on for
 * ever. H = f²/(N·c) + f, near = s(H − f)/(H + s − 2f), far = s(H − f)/(H − s) for focal length f, f-number N and a
 * blur c (S. F. Ray, Applied Photographic Optics, chapter on depth of field; from memory).
 */
export function sharpFromTo(
  { focalLengthPx, widthPx, distanceMetres: s }: PlanSetUp,
  { fNumber, sensorWidthMetres }: Lens,
): { nearMetres: number; farMetres: number | null } {
  const pixelMetres = sensorWidthMetres / widthPx
  const f = focalLengthPx * pixelMetres
  const hyperfocal = f ** 2 / (fNumber * blurPx * pixelMetres) + f
  return {
    nearMetres: (s * (hyperfocal - f)) / (hyperfocal + s - 2 * f),
    farMetres: s < hyperfocal ? (s * (hyperfocal - f)) / (hyperfocal - s) : null,
  }
}
