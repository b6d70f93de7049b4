import { metresOfText } from '../units/length.ts'
import { focalOfAngle, focalOfWidth } from './field-of-view.ts'

/**
 * Focal length in px that a person wrote as `60°` (across the picture), `3 m` (how wide the picture is at the
 * distance) or `1600 px`; null for anything else, and for a width where the distance is not known.
 *
 * @example focalOfText('90°', 1920, null) // 960
 */
export function focalOfText(text: string, widthPx: number, distanceMetres: number | null): number | null {
  const degrees = /^\s*(\d*\.?\d+)\s*(°|deg)?\s*$/.exec(text)?.[1]
  if (degrees !== undefined)
    return Number(degrees) > 0 && Number(degrees) < 180 ? focalOfAngle(widthPx, Number(degrees)) : null
  const px = /^\s*(\d*\.?\d+)\s*px\s*$/i.exec(text)?.[1]
  if (px !== undefined) return Number(px) || null
  const wide = metresOfText(text.replace(/\s*(wide|across)\s*$/i, ''))
  return wide !== null && distanceMetres !== null ? focalOfWidth(widthPx, wide, distanceMetres) : null
}
