import type { Outline } from '../../contract/marks.ts'
import { choleskyFactor, choleskyInverse, choleskySolve } from '../../numerics/cholesky.ts'
import { median } from '../../numerics/median.ts'
import { brightnessAt, type Luma } from '../luma.ts'
import { lightOf } from './light.ts'
import { type Likeness, likenessOf } from './likeness.ts'
import { type Shade, shadeAt } from './shell-shade.ts'
import { lightGain, type Shift } from './shift.ts'

/** How the camera draws a ball at its place: what moves it while the shutter is open, and what bends its circle. */
export type Drawn = {
  /** From the middle of the exposure to its end, px. */
  sweepX: number
  sweepY: number
  /** Motion of the ball while the sensor reads a pixel row, px: lower rows show it further on. */
  skewX: number
  skewY: number
  /** Direction away from the picture's middle, and how much longer the outline is that way than across it. */
  outX: number
  outY: number
  longer: number
}
export type SweptFit = Likeness & {
  outline: Outline
  /** Standard uncertainty of the centre, a coordinate, and of the radius; from the pixels' scatter. */
  centreUncertaintyPx: number
  radiusUncertaintyPx: number
}

const mostPixels = 1600
const mostMoments = 8
/** Of a pixel's square and a lens together, px. */
export const blurPx = 2
const rounds = 7
/**
 * How far the model itself is off: of the place of a rim, px, and of the shell's light, as a share. Without them the
 * rim that stands out most, where a small part of a pixel already exceeds the noise, would count as an outlier.
 * Found by trying on rendered clips.
 */
const rimPx = 0.5
const shadeShare = 0.1
/** In units of what is expected; holes at the rim and shadows are beyond. */
const corner = 1.2
/** Neighbouring pixels err alike (compression, holes): so many count as one. */
const correlated = 6

/**
 * The ball's circle in one frame by its whole appearance: a shaded disc that moves on during the exposure, in
 * front of the background, in light rather than codes. Gauss–Newton on centre, radius and brightness from a start
 * that is right to a fraction of the radius; holes at the rim and shadows lose weight as Cauchy's law has it.
 */
export function sweptFit(
  frame: Luma,
  background: Luma,
  shift: Shift,
  start: Outline,
  drawn: Drawn,
  shade: Shade,
  radiusPrior: { radiusPx: number; uncertaintyPx: number },
): SweptFit | null {
  const { sweepX, sweepY, skewX, skewY, outX, outY } = drawn
  const sweep = Math.hypot(sweepX, sweepY)
  const moments = Math.max(1, Math.min(mostMoments, Math.ceil(sweep)))
  const stretch = Math.sqrt(drawn.longer)
  const pixels = pixelsAbout(frame, background, shift, start, sweep)
  const n = pixels.x.length
  if (n < 60) return null
  let { xPx, yPx, radiusPx } = start
  let gain = lightGain(shift)
  let scale = 0
  const left = new Float64Array(n)
  const slopes = new Float64Array(4 * n)
  const cover = new Float64Array(n)
  let normal = new Float64Array(16)
  for (let round = 0; round < rounds; round++) {
    const blur = round < 2 ? blurPx + 0.06 * radiusPx : blurPx
    for (let i = 0; i < n; i++) {
      const v = (pixels.y[i]! - yPx) / (1 + skewY)
      const u = pixels.x[i]! - xPx - skewX * v
      const wall = pixels.wall[i]!
      let [alpha, byX, byY, byR, inX, inY] = [0, 0, 0, 0, 0, 0]
      for (let k = 0; k < moments; k++) {
        const at = moments === 1 ? 0 : (2 * k + 1) / moments - 1
        const du = u - at * sweepX
        const dv = v - at * sweepY
        const out = (du * outX + dv * outY) / stretch
        const along = (dv * outX - du * outY) * stretch
        // Math.hypot takes ten times as long, and this is the innermost loop.
        const distance = Math.sqrt(out * out + along * along)
        const depth = 0.5 + (radiusPx - distance) / blur
        if (depth <= 0) continue
        const a = Math.min(depth, 1)
        alpha += a
        inX += a * du
        inY += a * dv
        if (depth >= 1) continue
        byX += ((out * outX) / stretch - along * outY * stretch) / distance / blur
        byY += ((out * outY) / stretch + along * outX * stretch) / distance / blur
        byR += 1 / blur
      }
      const shell = alpha > 0 ? shadeAt(shade, inX / alpha / radiusPx, inY / alpha / radiusPx) : 0
      alpha /= moments
      cover[i] = alpha
      const contrast = (gain * shell - wall) / moments
      left[i] = pixels.light[i]! - (wall + alpha * (gain * shell - wall))
      slopes[4 * i] = byX * contrast
      slopes[4 * i + 1] = byY * contrast
      slopes[4 * i + 2] = byR * contrast
      slopes[4 * i + 3] = alpha * shell
    }
    scale = Math.max(1.4826 * median(left.filter((_, i) => i % 4 === 0).map(Math.abs)), 0.004)
    normal = new Float64Array(16)
    const pull = new Float64Array(4)
    for (let i = 0; i < n; i++) {
      const steep = Math.hypot(slopes[4 * i]!, slopes[4 * i + 1]!)
      const own = scale ** 2 + (rimPx * steep) ** 2 + (shadeShare * gain * slopes[4 * i + 3]!) ** 2
      const weight = scale ** 2 / own / (1 + (left[i]! ** 2 / own / corner ** 2) ** 2)
      for (let a = 0; a < 4; a++) {
        const weighted = weight * slopes[4 * i + a]!
        pull[a]! += weighted * left[i]!
        for (let b = 0; b <= a; b++) normal[4 * a + b]! += weighted * slopes[4 * i + b]!
      }
    }
    const priorWeight = correlated * (scale / radiusPrior.uncertaintyPx) ** 2
    normal[10]! += priorWeight
    pull[2]! += priorWeight * (radiusPrior.radiusPx - radiusPx)
    normal[15]! += correlated * (scale / 0.3) ** 2
    if (!choleskyFactor(normal, 4)) return null
    choleskySolve(normal, 4, pull)
    const size = Math.hypot(pull[0]!, pull[1]!)
    const within = Math.min(1, (0.15 * radiusPx) / Math.max(size, Math.abs(pull[2]!)))
    xPx += within * pull[0]!
    yPx += within * pull[1]!
    radiusPx += within * pull[2]!
    gain = Math.max(0.3, Math.min(3, gain + pull[3]!))
    if (!(radiusPx > 3 && Number.isFinite(xPx + yPx + radiusPx))) return null
    if (round > 2 && size < 0.01) break
  }
  const inverse = choleskyInverse(normal, 4)
  const sd = (k: number) => scale * Math.sqrt(correlated * inverse[5 * k]!)
  return {
    outline: { xPx, yPx, radiusPx },
    centreUncertaintyPx: Math.hypot(sd(0), sd(1)) / Math.SQRT2,
    radiusUncertaintyPx: sd(2),
    ...likenessOf(pixels, left, cover),
  }
}

/** Pixels around the rim, wherever it lies during the exposure: their light and the background's behind them. */
function pixelsAbout(
  frame: Luma,
  background: Luma,
  shift: Shift,
  { xPx, yPx, radiusPx }: Outline,
  sweep: number,
) {
  const margin = Math.max(4, 0.12 * radiusPx)
  const inner = Math.max(0, radiusPx - sweep - margin)
  const outer = radiusPx + sweep + margin
  const area = Math.PI * (outer ** 2 - inner ** 2)
  const every = Math.max(1, Math.round(area / mostPixels))
  const x: number[] = []
  const y: number[] = []
  const light: number[] = []
  const wall: number[] = []
  const top = Math.max(0, Math.floor(yPx - frame.yPx - outer))
  const bottom = Math.min(frame.heightPx - 1, Math.ceil(yPx - frame.yPx + outer))
  const leftmost = Math.max(0, Math.floor(xPx - frame.xPx - outer))
  const rightmost = Math.min(frame.widthPx - 1, Math.ceil(xPx - frame.xPx + outer))
  let count = 0
  for (let row = top; row <= bottom; row++)
    for (let column = leftmost; column <= rightmost; column++) {
      const px = frame.xPx + column + 0.5
      const py = frame.yPx + row + 0.5
      const distance = Math.sqrt((px - xPx) ** 2 + (py - yPx) ** 2)
      if (distance < inner || distance > outer || count++ % every !== 0) continue
      x.push(px)
      y.push(py)
      light.push(lightOf(frame.data[row * frame.widthPx + column]!))
      wall.push(lightOf(shift.gain * brightnessAt(background, px - shift.x, py - shift.y)))
    }
  return { x, y, light, wall }
}
