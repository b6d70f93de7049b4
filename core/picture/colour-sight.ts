type Rgb = readonly [number, number, number]
type Matrix = readonly [Rgb, Rgb, Rgb]

/** Linear parts of `#rrggbb` (IEC 61966-2-1, sRGB). */
export function linearOf(colour: string): Rgb {
  const part = (at: number) => {
    const c = Number.parseInt(colour.slice(at, at + 2), 16) / 255
    return c <= 0.04045 ? c / 12.92 : ((c + 0.055) / 1.055) ** 2.4
  }
  return [part(1), part(3), part(5)]
}

/** WCAG 2.2, contrast ratio: 1 for the same, 21 for black on white. */
export function contrast(a: Rgb, b: Rgb): number {
  const [low, high] = [luminance(a), luminance(b)].sort((x, y) => x - y)
  return (high! + 0.05) / (low! + 0.05)
}

const luminance = ([r, g, b]: Rgb) => 0.2126 * r + 0.7152 * g + 0.0722 * b

/**
 * What eyes without one kind of cone make of a colour, and grey print; matrices over linear RGB.
 * Source: Machado, Oliveira and Fernandes, IEEE Trans. Vis. Comput. Graph. 15 (2009) 1291, severity 1.0.
 */
export const sights = {
  protanopia: [
    [0.152286, 1.052583, -0.204868],
    [0.114503, 0.786281, 0.099216],
    [-0.003882, -0.048116, 1.051998],
  ],
  deuteranopia: [
    [0.367322, 0.860646, -0.227968],
    [0.280085, 0.672501, 0.047413],
    [-0.01182, 0.04294, 0.968881],
  ],
  tritanopia: [
    [1.255528, -0.076749, -0.178779],
    [-0.078411, 0.930809, 0.147602],
    [0.004733, 0.691367, 0.3039],
  ],
  grey: [
    [0.2126, 0.7152, 0.0722],
    [0.2126, 0.7152, 0.0722],
    [0.2126, 0.7152, 0.0722],
  ],
} as const satisfies Record<string, Matrix>
export type Sight = keyof typeof sights

/** A colour as it is seen, linear parts. */
export function seenAs(sight: Sight, colour: string): Rgb {
  const [r, g, b] = linearOf(colour)
  const [red, green, blue] = sights[sight].map(([x, y, z]) => Math.min(1, Math.max(0, x * r + y * g + z * b)))
  return [red!, green!, blue!]
}
