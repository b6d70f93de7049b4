import { pixelOf } from '../../geometry/ball-view.ts'
import { turned } from '../../geometry/rotation.ts'
import { median } from '../../numerics/median.ts'
import { brightnessAt, type Luma } from '../luma.ts'
import { blurred } from './blur.ts'
import { type Disc, discOf } from './disc.ts'
import type { Sight } from './sights.ts'

/** The pattern of a flight's frames on one grid: mean 0, variance about 1 in every frame. */
export type Sheets = { disc: Disc; values: Float32Array[] }

/** Shading is smooth over this width, ball radii (σ of a Gaussian). */
const shadingWidth = 0.05
/** Strengths beyond this many standard deviations say no more: cut off. */
const cut = 2.5

/** A place this far out, in radii, from the first or last middle of an exposure is no longer surely ball. */
const covered = 0.97
/** With fewer frames than this, what stands still cannot be told from what turns. */
const enoughToStand = 9

/**
 * What stays in place while the ball turns is the lamp's: the median over the frames at each node is the
 * bare shell. A hole is darker than the shell where the shell is lit, and brighter where it lies in the shade
 * (one looks through to what is lit inside). Most of a ball is shell, so how lopsided the differences at a
 * place are over time (their skewness) says which: there the sign is turned, and the strength evened.
 */
export function sheetsOf(
  lumas: readonly Luma[],
  sights: readonly Sight[],
  half: number,
  exposureSeconds: number,
): Sheets {
  const disc = discOf(half)
  const raw = lumas.map((luma, i) => evened(sampled(luma, sights[i]!, disc), disc))
  const shell = blurred(medianOf(raw), disc.size, shadingWidth * half)
  const values = raw.map(sheet => sheet.map((value, at) => value / Math.max(shell[at]!, 0.05) - 1))
  if (values.length >= enoughToStand) withoutStanding(values)
  for (const sheet of values) withoutShade(sheet, disc)
  const gain = gainOf(values, disc)
  for (const sheet of values) {
    for (let at = 0; at < sheet.length; at++) sheet[at] = marked(-(sheet[at]! || 0) * (gain[at]! || 0))
    normalise(sheet, disc)
  }
  if (values.length >= enoughToStand) withoutStanding(values)
  values.forEach((sheet, i) => {
    withoutBackground(sheet, sights[i]!, disc, exposureSeconds)
    normalise(sheet, disc)
  })
  return { disc, values }
}

/** Where the ball did not cover the picture for the whole exposure the background shows through: nothing to go by. */
function withoutBackground(sheet: Float32Array, sight: Sight, { half, size }: Disc, exposureSeconds: number) {
  const { velocityX, velocityY, view } = sight
  const share = exposureSeconds / 2 / view.outline.radiusPx
  const [sweepX, sweepY] = [velocityX * share, velocityY * share]
  for (let at = 0; at < sheet.length; at++) {
    const [x, y] = [((at % size) - half) / half, (Math.floor(at / size) - half) / half]
    const out = Math.max(Math.hypot(x - sweepX, y - sweepY), Math.hypot(x + sweepX, y + sweepY))
    if (out > covered) sheet[at] = 0
  }
}

/**
 * Holes and ink count by their strength; what differs the other way counts where it is strong (a lit hole on
 * the lit side, ink in the shade), and not where it is no more than the shell's own unevenness.
 */
const marked = (strength: number): number => (strength > 0 ? strength : Math.max(0, -0.7 * strength - 0.5))

/** Takes out what stays in place, or changes evenly as the ball moves past the lamp: a straight line in time at each node. */
function withoutStanding(values: readonly Float32Array[]): void {
  const n = values.length
  const middle = (n - 1) / 2
  const spread = (n * (n * n - 1)) / 12
  for (let at = 0; at < values[0]!.length; at++) {
    let mean = 0
    let slope = 0
    for (let i = 0; i < n; i++) {
      mean += values[i]![at]! / n
      slope += ((i - middle) * values[i]![at]!) / spread
    }
    for (let i = 0; i < n; i++) values[i]![at]! -= mean + slope * (i - middle)
  }
}

/** Takes out what is wider than a hole: the lamp's shade, which moves with the outline's error and the ball's way. */
function withoutShade(sheet: Float32Array, { size, half }: Disc): void {
  const shade = blurred(sheet, size, shadeWidth * half)
  for (let at = 0; at < sheet.length; at++) sheet[at]! -= shade[at]!
}

/** Over so much of the ball, in radii, the strength and the lopsidedness of its pattern are taken together. */
const gainWidth = 0.2
const certainSkewness = 0.5
/** Shade is smooth over this width, ball radii (σ of a Gaussian): three times a hole's. */
const shadeWidth = 0.4

function gainOf(values: readonly Float32Array[], { size, half, node }: Disc): Float32Array {
  const moment = (power: number) =>
    blurred(
      values[0]!.map((_, at) => values.reduce((sum, sheet) => sum + sheet[at]! ** power, 0) / values.length),
      size,
      gainWidth * half,
    )
  const second = moment(2)
  const third = moment(3)
  // Where little passes there is noise alone: it is not to be raised to the strength of the rest.
  const usual = node.reduce((sum, at) => sum + second[at]!, 0) / node.length
  return second.map((variance, at) => {
    const skewness = third[at]! / variance ** 1.5
    return Math.max(-1, Math.min(1, -skewness / certainSkewness)) / Math.sqrt(variance + 0.5 * usual)
  })
}

/** The ball's brightness on the grid, averaged over as many pixels as a cell covers. */
function sampled(luma: Luma, sight: Sight, { half, size }: Disc): Float32Array {
  const { view, toCamera, velocityX, velocityY, rowSeconds } = sight
  const { yPx, radiusPx } = view.outline
  const perSide = Math.max(1, Math.round(radiusPx / half))
  const sheet = new Float32Array(size * size)
  for (let at = 0; at < sheet.length; at++) {
    let sum = 0
    let count = 0
    for (let k = 0; k < perSide * perSide; k++) {
      const x = ((at % size) - half + ((k % perSide) + 0.5) / perSide - 0.5) / half
      const y = (Math.floor(at / size) - half + (Math.floor(k / perSide) + 0.5) / perSide - 0.5) / half
      const inside = 1 - x * x - y * y
      if (inside < 0.02) continue
      const [px, py] = pixelOf(view, turned(toCamera, [x, y, -Math.sqrt(inside)]))
      // Lower rows are seen later, when the ball has gone on: y' = y + vy·rowSeconds·y'.
      const down = (py - yPx) / (1 - velocityY * rowSeconds)
      sum += brightnessAt(luma, px + velocityX * rowSeconds * down, yPx + down)
      count++
    }
    sheet[at] = count > 0 ? sum / count : Number.NaN
  }
  return sheet
}

/** The sheet over its own median: a lamp that flickers, or a cloud, changes all of a frame. */
function evened(sheet: Float32Array, { node }: Disc): Float32Array {
  const middle = Math.max(median(Float32Array.from(node, at => sheet[at]!)), 1)
  return sheet.map(value => value / middle)
}

function medianOf(sheets: readonly Float32Array[]): Float32Array {
  return sheets[0]!.map((_, at) => median(sheets.map(sheet => sheet[at]!)))
}

function normalise(sheet: Float32Array, { node }: Disc): void {
  for (let pass = 0; pass < 2; pass++) {
    let mean = 0
    let square = 0
    for (const at of node) mean += sheet[at]! / node.length
    for (const at of node) square += (sheet[at]! - mean) ** 2 / node.length
    const scale = 1 / Math.max(Math.sqrt(square), 1e-3)
    for (let at = 0; at < sheet.length; at++)
      sheet[at] = Math.max(-cut, Math.min(cut, (sheet[at]! - mean) * scale))
  }
}

/** The same pattern on a coarser, softer grid, for the wide search. */
export function softened({ disc, values }: Sheets, half: number, width: number): Sheets {
  const coarse = discOf(half)
  const step = disc.half / half
  return {
    disc: coarse,
    values: values.map(sheet => {
      const soft = blurred(sheet, disc.size, width * disc.half)
      const out = new Float32Array(coarse.size ** 2)
      for (let at = 0; at < out.length; at++)
        out[at] =
          soft[
            Math.round(Math.floor(at / coarse.size) * step) * disc.size +
              Math.round((at % coarse.size) * step)
          ]!
      normalise(out, coarse)
      return out
    }),
  }
}
