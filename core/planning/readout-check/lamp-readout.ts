import { levenbergMarquardt } from '../../numerics/levenberg-marquardt.ts'
import { wrapAngle } from '../../numerics/wrap-angle.ts'
import { type LateRow, lateRows } from './late-rows.ts'
import { patchInflation } from './patch-inflation.ts'
import { noReadout, type ReadoutFound, readoutFound } from './readout-found.ts'

const fewestFrames = 60
/** The mains and the camera's rate together lie within this of what they are said to be. */
const rateOff = 0.003
/** The bands must stand out of their own uncertainty by this. */
const leastStrength = 8
/** Tones that drift apart by less than this many periods over the clip look the same. */
const leastBeat = 1
/** From so many periods over the height on, bands and an overtone that falls on them are told apart by their shape. */
const plainPeriods = 0.5
/** Overtones beyond those that are fitted shift the bands by so much of a period at most: found by trying. */
const shiftedBy = 0.002
const turn = 2 * Math.PI

/**
 * The readout from a mains lamp's bands on a plain wall: row y of frame i sees the lamp's wave at
 * i/fps + readout · y/H, so the bands make lampHertz · readout periods over the picture's height.
 *
 * What does not move (the wall, the lens's shade) is taken out of each row first. Two overtones of the wave are
 * fitted with it, where they do not stand still.
 *
 * @param light brightness by frame and row; frames even in time, rows evenly over the whole height
 */
export function lampReadout(
  light: readonly ArrayLike<number>[],
  lampHertz: number,
  captureFps: number,
): ReadoutFound {
  const frames = light.length
  const rows = light[0]?.length ?? 0
  if (frames < fewestFrames)
    return noReadout(
      `${frames} frames are too few to see bands move.`,
      `Film ${fewestFrames} frames at least; two seconds are good.`,
    )
  const perFrame = lampHertz / captureFps
  const standStill = noReadout(
    `At ${captureFps} fps the bands of ${lampHertz} flashes a second stand still, or an overtone of the lamp falls on them.`,
    'Film for longer, at another frame rate, or check with a spinning pattern or a moving edge.',
  )
  const isBlurred = (cycles: number) => beat(cycles) * frames < leastBeat
  // The wave, and its overtones on either side of it.
  if (isBlurred(perFrame) || isBlurred(2 * perFrame)) return standStill
  const isMixed = isBlurred(3 * perFrame) || isBlurred(4 * perFrame)
  const waves = wavesOf(light)
  const start = bestStart(waves, rows, perFrame)
  const overtones = [2, 3].filter(k => beat(k * start.perFrame) * frames > 1)
  const size = 4 + 2 * overtones.length
  const first = new Float64Array(size)
  first.set([start.perFrame, start.periods, start.c, start.s])
  const fit = levenbergMarquardt(
    (p, residuals, jacobian) => fillBands(p, overtones, waves, rows, residuals, jacobian),
    first,
    waves.length,
    { maxIterations: 40 },
  )
  const noBands = noReadout(
    'No bands move over the picture.',
    'Film a plain wall lit by that lamp alone, with a short exposure (1/1000 or shorter), and hold the camera still.',
  )
  if (!fit.covariance) return noBands
  const variance = (patchInflation(fit.residuals, rows) * fit.sumOfSquares) / (waves.length - size)
  const [, periods, c, s] = fit.parameters as unknown as [number, number, number, number]
  if (isMixed && Math.abs(periods) < plainPeriods) return standStill
  if (!(Math.hypot(c, s) > leastStrength * Math.sqrt((2 * variance) / waves.length))) return noBands
  return readoutFound(
    periods / lampHertz,
    Math.hypot(Math.sqrt(variance * fit.covariance[size + 1]!), shiftedBy) / lampHertz,
    [
      `The bands make ${Math.abs(periods).toFixed(3)} periods over the picture’s height and change the light by ${(100 * Math.hypot(c, s)).toFixed(1)} %.`,
    ],
    lateRows(lateBy(waves, rows, fit.parameters, lampHertz), periods / lampHertz),
    'Film for longer, with a shorter exposure, or check with a spinning pattern or a moving edge.',
  )
}

const beat = (cycles: number) => Math.abs(cycles - Math.round(cycles))

/** Each row's light as a share of its own mean, less one; frame after frame. */
function wavesOf(light: readonly ArrayLike<number>[]): Float64Array {
  const rows = light[0]!.length
  const means = new Float64Array(rows)
  for (const frame of light) for (let y = 0; y < rows; y++) means[y]! += frame[y]! / light.length
  return Float64Array.from({ length: light.length * rows }, (_, k) => {
    const mean = means[k % rows]!
    return mean > 0 ? light[Math.floor(k / rows)]![k % rows]! / mean - 1 : 0
  })
}

/** How late each row sees the wave: its phase against that of the fitted wave at the top, on the turn next to the fit. */
function lateBy(
  waves: Float64Array,
  rows: number,
  [perFrame, periods, c, s]: ArrayLike<number> & Iterable<number>,
  lampHertz: number,
): LateRow[] {
  return Array.from({ length: rows }, (_, y) => {
    let [re, im] = [0, 0]
    for (let i = 0; i * rows < waves.length; i++) {
      const angle = turn * perFrame! * i
      re += waves[i * rows + y]! * Math.cos(angle)
      im -= waves[i * rows + y]! * Math.sin(angle)
    }
    const height = (y + 0.5) / rows
    const off = wrapAngle(Math.atan2(im, re) + Math.atan2(s!, c!) - turn * periods! * height)
    return { height, lateSeconds: (periods! * height + off / turn) / lampHertz }
  })
}

/** The wave, of a grid over cycles a frame and periods over the height, that explains most. */
function bestStart(waves: Float64Array, rows: number, nominal: number) {
  const frames = waves.length / rows
  const steps = Math.max(2, Math.ceil(rateOff * nominal * frames * 4))
  let best = { perFrame: nominal, periods: 0, c: 0, s: 0, power: -1 }
  for (let step = -steps; step <= steps; step++) {
    const perFrame = nominal * (1 + (rateOff * step) / steps)
    const [re, im] = [new Float64Array(rows), new Float64Array(rows)]
    for (let i = 0; i < frames; i++) {
      const [cos, sin] = [Math.cos(turn * perFrame * i), Math.sin(turn * perFrame * i)]
      for (let y = 0; y < rows; y++) {
        re[y]! += waves[i * rows + y]! * cos
        im[y]! += waves[i * rows + y]! * sin
      }
    }
    // A readout is no longer than a frame.
    const finest = Math.ceil(12 * nominal) + 4
    for (let k = 0; k <= finest; k++) {
      const periods = (1.05 * nominal * k) / finest
      let [c, s] = [0, 0]
      for (let y = 0; y < rows; y++) {
        const angle = (turn * periods * (y + 0.5)) / rows
        c += re[y]! * Math.cos(angle) - im[y]! * Math.sin(angle)
        s += re[y]! * Math.sin(angle) + im[y]! * Math.cos(angle)
      }
      const power = c * c + s * s
      const scale = 2 / waves.length
      if (power > best.power) best = { perFrame, periods, c: scale * c, s: scale * s, power }
    }
  }
  return best
}

/** Parameters: cycles a frame, periods over the height, then cosine and sine of the wave and of each overtone. */
function fillBands(
  p: Float64Array,
  overtones: readonly number[],
  waves: Float64Array,
  rows: number,
  residuals: Float64Array,
  jacobian: Float64Array,
): void {
  const frames = waves.length / rows
  const size = p.length
  const own = new Float64Array(size + 1)
  const means = new Float64Array(size + 1)
  const at = (i: number, y: number) => {
    const height = (y + 0.5) / rows
    own.fill(0)
    for (const [m, order] of [1, ...overtones].entries()) {
      const angle = turn * order * (p[0]! * i + p[1]! * height)
      const [cos, sin] = [Math.cos(angle), Math.sin(angle)]
      const [c, s] = [p[2 + 2 * m]!, p[3 + 2 * m]!]
      const slope = turn * order * (s * cos - c * sin)
      own[0]! += slope * i
      own[1]! += slope * height
      own[2 + 2 * m] = cos
      own[3 + 2 * m] = sin
      own[size]! += c * cos + s * sin
    }
  }
  for (let y = 0; y < rows; y++) {
    means.fill(0)
    for (let i = 0; i < frames; i++) {
      at(i, y)
      for (let k = 0; k <= size; k++) means[k]! += own[k]! / frames
    }
    for (let i = 0; i < frames; i++) {
      at(i, y)
      const place = i * rows + y
      residuals[place] = own[size]! - means[size]! - waves[place]!
      for (let k = 0; k < size; k++) jacobian[place * size + k] = own[k]! - means[k]!
    }
  }
}
