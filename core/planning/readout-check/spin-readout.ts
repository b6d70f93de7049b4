import { levenbergMarquardt } from '../../numerics/levenberg-marquardt.ts'
import { wrapAngle } from '../../numerics/wrap-angle.ts'
import { type Beats, beatsOfPixels, type PixelBeat } from './beats-of-pixels.ts'
import { lateRows } from './late-rows.ts'
import { patchInflation } from './patch-inflation.ts'
import { noReadout, type ReadoutFound, readoutFound } from './readout-found.ts'

const fewestFrames = 60
const fewestTurns = 2
const rings = 6
/** Nearer to the middle than this part of the pattern, a pixel sees all of it at once. */
const innermost = 0.15
const mostFold = 8
/** Lens and a view not quite face on bend the pattern's angles by so much, radians: common practice, no source. */
const bentBy = 0.003
/** What is left of the phases once the fit is made: more, and the pattern is not one that turns evenly. */
const mostScatter = 0.35

const howTo =
  'Turn a clear pattern (a line across a disc) quickly and evenly, face on, and let it fill the picture.'

/**
 * The readout from a pattern that spins evenly about a middle that stands still: each pixel sees the pattern pass
 * in a wave whose phase is fold · (its angle about the middle), and a row at y sees all of it readout · y/H late.
 * Middle, readout and one phase for each ring about the middle are fitted to the phases of all pixels.
 *
 * The spin must be slower than half the frame rate over the pattern's fold, or it is taken for another.
 *
 * @param pictures small pictures, row after row, even in time, over the whole height
 */
export function spinReadout(
  pictures: readonly ArrayLike<number>[],
  widthPx: number,
  captureFps: number,
): ReadoutFound {
  if (pictures.length < fewestFrames)
    return noReadout(`${pictures.length} frames are too few.`, `Film ${fewestFrames} frames at least.`)
  const heightPx = pictures[0]!.length / widthPx
  const beats = beatsOfPixels(pictures, widthPx)
  if (!beats) return noReadout('Nothing in the picture turns.', howTo)
  const cycles = beats.cyclesPerFrame * pictures.length
  if (cycles < fewestTurns)
    return noReadout(
      `The pattern comes round ${cycles.toFixed(1)} times; ${fewestTurns} times at least are needed.`,
      howTo,
    )
  const { fit, inflation, fold, count, late } = spinFit(beats, heightPx)
  const scatter = Math.sqrt(fit.sumOfSquares / count)
  if (!fit.covariance || !(scatter < mostScatter))
    return noReadout('What moves does not turn evenly about one middle.', howTo)
  const perSecond = 2 * Math.PI * beats.cyclesPerFrame * captureFps
  const size = fit.parameters.length
  const variance = (inflation * fit.sumOfSquares) / (count - size)
  return readoutFound(
    fit.parameters[2]! / perSecond,
    Math.hypot(Math.sqrt(variance * fit.covariance[2 * size + 2]!), bentBy) / perSecond,
    [
      `The pattern comes round ${(beats.cyclesPerFrame * captureFps).toFixed(2)} times a second (${Math.abs(fold)} a turn), ${cycles.toFixed(0)} times in the clip.`,
    ],
    lateRows(
      late.map(({ height, phase }) => ({ height, lateSeconds: phase / perSecond })),
      fit.parameters[2]! / perSecond,
    ),
    howTo,
  )
}

/** Parameters: middle x and y, phase over the picture's height, then a phase for each ring. */
function spinFit({ pixels }: Beats, heightPx: number) {
  const strong = strongIn(pixels)
  const start = bestStart(strong)
  const far = strong.map(pixel => Math.hypot(pixel.x - start.x, pixel.y - start.y))
  const edge = far.toSorted((a, b) => a - b)[Math.floor(0.98 * far.length)]!
  const used = strong.filter((_, i) => far[i]! > innermost * edge && far[i]! <= edge)
  const ringOf = used.map(pixel =>
    Math.min(rings - 1, Math.floor((rings * Math.hypot(pixel.x - start.x, pixel.y - start.y)) / edge)),
  )
  const filled = [...new Set(ringOf)].sort((a, b) => a - b)
  const own = ringOf.map(ring => filled.indexOf(ring))
  const size = 3 + filled.length
  const total = used.reduce((sum, pixel) => sum + pixel.amplitude ** 2, 0)
  const weights = used.map(pixel => Math.sqrt((pixel.amplitude ** 2 * used.length) / total))
  const first = new Float64Array(size)
  first.set([start.x, start.y, 0])
  for (const k of filled.keys()) first[3 + k] = ringPhase(used, own, k, start)
  const fit = levenbergMarquardt(
    (p, residuals, jacobian) => {
      used.forEach((pixel, i) => {
        const [dx, dy] = [pixel.x - p[0]!, pixel.y - p[1]!]
        const squared = Math.max(dx * dx + dy * dy, 1)
        const height = pixel.y / heightPx
        const foreseen = p[3 + own[i]!]! - start.fold * Math.atan2(dy, dx) + p[2]! * height
        residuals[i] = weights[i]! * wrapAngle(foreseen - pixel.phase)
        jacobian.fill(0, i * size, (i + 1) * size)
        jacobian[i * size] = (-weights[i]! * start.fold * dy) / squared
        jacobian[i * size + 1] = (weights[i]! * start.fold * dx) / squared
        jacobian[i * size + 2] = weights[i]! * height
        jacobian[i * size + 3 + own[i]!] = weights[i]!
      })
    },
    first,
    used.length,
    { maxIterations: 60 },
  )
  const across = Math.ceil(Math.max(...used.map(pixel => pixel.x)))
  const map = new Float64Array(across * heightPx).fill(Number.NaN)
  used.forEach((pixel, i) => {
    map[Math.floor(pixel.y) * across + Math.floor(pixel.x)] = fit.residuals[i]!
  })
  // What is left of a pixel's phase once the pattern's own is taken out: how much of a turn its row is behind.
  const behind = used.map((pixel, i) => ({
    ...pixel,
    phase: fit.parameters[2]! * (pixel.y / heightPx) - fit.residuals[i]! / weights[i]!,
  }))
  const late = phasesOfRows(behind, heightPx)
  return { fit, inflation: patchInflation(map, across), fold: start.fold, count: used.length, late }
}

/** The mean over each row, weighted as the fit weighs them. */
function phasesOfRows(pixels: readonly PixelBeat[], heightPx: number): { height: number; phase: number }[] {
  const sums = Array.from({ length: heightPx }, () => ({ phase: 0, weight: 0 }))
  for (const { y, phase, amplitude } of pixels) {
    const row = sums[Math.floor(y)]!
    row.phase += amplitude ** 2 * phase
    row.weight += amplitude ** 2
  }
  return sums.flatMap(({ phase, weight }, y) =>
    weight > 0 ? [{ height: (y + 0.5) / heightPx, phase: phase / weight }] : [],
  )
}

const strongIn = (pixels: readonly PixelBeat[]) => {
  const most = Math.max(...pixels.map(pixel => pixel.amplitude))
  return pixels.filter(pixel => pixel.amplitude > most / 8)
}

type Start = { x: number; y: number; fold: number }

/** The middle and the fold under which the phases of each ring agree best: a coarse search, then a finer one. */
function bestStart(pixels: readonly PixelBeat[]): Start {
  const mean = (of: (pixel: PixelBeat) => number) =>
    pixels.reduce((sum, each) => sum + of(each), 0) / pixels.length
  const [x, y] = [mean(pixel => pixel.x), mean(pixel => pixel.y)]
  const reach = Math.sqrt(mean(pixel => (pixel.x - x) ** 2 + (pixel.y - y) ** 2))
  const some = pixels.filter((_, i) => i % Math.max(1, Math.floor(pixels.length / 1500)) === 0)
  let best: Start & { agree: number } = { x, y, fold: 1, agree: -1 }
  const tryAt = (start: Start) => {
    const agree = agreement(some, start, reach)
    if (agree > best.agree) best = { ...start, agree }
  }
  const folds = Array.from({ length: mostFold }, (_, k) => [k + 1, -k - 1]).flat()
  const steps = [-3, -2, -1, 0, 1, 2, 3]
  for (const fold of folds)
    for (const u of steps)
      for (const v of steps) tryAt({ x: x + (u * reach) / 6, y: y + (v * reach) / 6, fold })
  for (let step = reach / 12; step > reach / 60; step /= 2)
    for (const [u, v] of [
      [-1, 0],
      [1, 0],
      [0, -1],
      [0, 1],
    ] as const)
      tryAt({ x: best.x + u * step, y: best.y + v * step, fold: best.fold })
  return best
}

/** Length of each ring's sum of phases that the turning is taken out of, all together. */
function agreement(pixels: readonly PixelBeat[], { x, y, fold }: Start, reach: number): number {
  const sums = Array.from({ length: 2 * rings }, () => [0, 0] as [number, number])
  for (const pixel of pixels) {
    const [dx, dy] = [pixel.x - x, pixel.y - y]
    const ring = Math.min(2 * rings - 1, Math.floor((rings * Math.hypot(dx, dy)) / reach))
    const angle = pixel.phase + fold * Math.atan2(dy, dx)
    sums[ring]![0] += Math.cos(angle)
    sums[ring]![1] += Math.sin(angle)
  }
  return sums.reduce((sum, [c, s]) => sum + Math.hypot(c, s), 0)
}

function ringPhase(
  pixels: readonly PixelBeat[],
  own: readonly number[],
  ring: number,
  { x, y, fold }: Start,
) {
  let [c, s] = [0, 0]
  pixels.forEach((pixel, i) => {
    if (own[i] !== ring) return
    const angle = pixel.phase + fold * Math.atan2(pixel.y - y, pixel.x - x)
    c += Math.cos(angle)
    s += Math.sin(angle)
  })
  return Math.atan2(s, c)
}
