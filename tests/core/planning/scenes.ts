/** What a readout check films: brightness (0 to 255) at a place, px, and a time. */
export type Shade = (x: number, y: number, t: number) => number

const turn = 2 * Math.PI

/** A wall, darker towards its corners, under a lamp that flashes so often: `wave` runs through one flash. */
export const litWall =
  (hertz: number, wave: (cycles: number) => number): Shade =>
  (_, y, t) =>
    (170 - 0.01 * (y - 30) ** 2) * wave(hertz * t + 0.3)

/** Softly between full and four fifths; and as a lamp goes that follows the mains without a filter. */
export const softWave = (cycles: number) => 0.9 + 0.1 * Math.cos(turn * cycles)
export const hardWave = (cycles: number) => Math.abs(Math.sin((turn / 2) * cycles))

/** A bright disc with a dark line across, turning clockwise (negative: the other way). */
export const lineOnDisc =
  (middle: { x: number; y: number; radius: number }, turnsPerSecond: number): Shade =>
  (x, y, t) => {
    const [dx, dy] = [x - middle.x, y - middle.y]
    if (Math.hypot(dx, dy) > middle.radius) return 60
    const angle = turn * turnsPerSecond * t
    return Math.abs(dy * Math.cos(angle) - dx * Math.sin(angle)) < 2.2 ? 30 : 200
  }

/** A dark upright bar that leans by `slant` px over the height and is moved to and fro `reach` px about the middle. */
export const movedBar =
  (size: { widthPx: number; heightPx: number }, reach: number, perSecond: number, slant: number): Shade =>
  (x, y, t) => {
    const left = size.widthPx / 2 + reach * Math.sin(turn * perSecond * t) + (slant * y) / size.heightPx
    return x > left && x < left + 16 ? 40 : 190 + 0.1 * x
  }
