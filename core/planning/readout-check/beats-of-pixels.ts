const turn = 2 * Math.PI
/** Grey levels: a pixel whose brightness differs by less over the clip tells nothing. */
const leastSwing = 12
const pixelsTried = 240

/** A pixel's wave at a clip's beat: where it is in its cycle at frame 0 (radians, growing with time), and how strong. */
export type PixelBeat = { x: number; y: number; phase: number; amplitude: number }

/** The strongest even beat of a clip's pixels, cycles a frame, and each pixel's part in it. */
export type Beats = { cyclesPerFrame: number; pixels: PixelBeat[] }

/**
 * Finds the beat at which something that turns evenly makes pixels bright and dark: the strongest tone in the
 * summed spectra of pixels that swing most. Each pixel's phase is then taken at that tone. Null where none swings.
 *
 * @param pictures same-sized pictures, row after row, even in time
 */
export function beatsOfPixels(pictures: readonly ArrayLike<number>[], widthPx: number): Beats | null {
  const swings = swingsOf(pictures)
  const lively = [...swings.keys()].filter(i => swings[i]! > leastSwing)
  if (lively.length < pixelsTried) return null
  const strongest = lively.toSorted((a, b) => swings[b]! - swings[a]!).slice(0, pixelsTried * 4)
  const some = strongest.filter((_, i) => i % 4 === 0)
  const height = (cycles: number) =>
    some.reduce((sum, pixel) => {
      const { c, s } = toneOf(pictures, pixel, cycles)
      return sum + c * c + s * s
    }, 0)
  const step = 1 / (3 * pictures.length)
  let best = { cycles: 0, height: 0 }
  for (let cycles = 2 * step; cycles < 0.5; cycles += step) {
    const found = height(cycles)
    if (found > best.height) best = { cycles, height: found }
  }
  for (let half = step / 2; half > step / 200; half /= 2)
    for (const cycles of [best.cycles - half, best.cycles + half]) {
      const found = height(cycles)
      if (found > best.height) best = { cycles, height: found }
    }
  return {
    cyclesPerFrame: best.cycles,
    pixels: lively.map(pixel => {
      const { c, s } = toneOf(pictures, pixel, best.cycles)
      return {
        x: (pixel % widthPx) + 0.5,
        y: Math.floor(pixel / widthPx) + 0.5,
        phase: Math.atan2(-s, c),
        amplitude: Math.hypot(c, s),
      }
    }),
  }
}

function swingsOf(pictures: readonly ArrayLike<number>[]): Float64Array {
  const size = pictures[0]?.length ?? 0
  const [sums, squares] = [new Float64Array(size), new Float64Array(size)]
  for (const picture of pictures)
    for (let i = 0; i < size; i++) {
      sums[i]! += picture[i]!
      squares[i]! += picture[i]! ** 2
    }
  const n = pictures.length
  return sums.map((sum, i) => Math.sqrt(Math.max(squares[i]! / n - (sum / n) ** 2, 0)))
}

/** A pixel's cosine and sine parts at a tone; tapered (Hann), so that other tones leak little. */
function toneOf(pictures: readonly ArrayLike<number>[], pixel: number, cycles: number) {
  const n = pictures.length
  // Rotations by one step each, rather than a cosine for every frame.
  const [stepCos, stepSin] = [Math.cos(turn * cycles), Math.sin(turn * cycles)]
  const [taperCos, taperSin] = [Math.cos(turn / n), Math.sin(turn / n)]
  let [cos, sin, tc, ts] = [1, 0, Math.cos(Math.PI / n), Math.sin(Math.PI / n)]
  let [c, s, weights, wc, ws] = [0, 0, 0, 0, 0]
  for (let i = 0; i < n; i++) {
    const weight = 1 - tc
    const value = pictures[i]![pixel]! * weight
    c += value * cos
    s += value * sin
    weights += pictures[i]![pixel]!
    wc += weight * cos
    ws += weight * sin
    ;[cos, sin] = [cos * stepCos - sin * stepSin, cos * stepSin + sin * stepCos]
    ;[tc, ts] = [tc * taperCos - ts * taperSin, tc * taperSin + ts * taperCos]
  }
  const mean = weights / n
  return { c: (2 * (c - mean * wc)) / n, s: (2 * (s - mean * ws)) / n }
}
