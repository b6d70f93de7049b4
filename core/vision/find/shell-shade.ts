import { median } from '../../numerics/median.ts'
import { addLight, type LitPlace, lamps, lightAround, lightBy } from './light-around.ts'

/** How bright the bare shell is by where it faces: sectors of rings, see `shadeAt`. */
export type Shade = Float32Array
/** Light seen at a place of the disc, in radii from its middle, and how far the ball moved while it was seen: half of it. */
export type ShadeSample = { x: number; y: number; sweepX: number; sweepY: number; light: number }

const sectors = 24
/** Rings of one depth each, so that they grow narrow towards the rim, where the light falls fast. */
const rings = 20
/** Samples in a place, places on the disc, samples from which on a place counts fully, and those that its mean sweep is taken from. */
const fewest = 5
const fewestPlaces = 30
const many = 40
const mostSwept = 12
const moments = 5

/**
 * The shell's shade from light seen in all frames of a flight: what far lamps explain of the median light in each part
 * of the disc, as most of a ball is shell, not hole; and what they leave, from part to part and on to the rim.
 * Null when too little of the disc was seen.
 */
export function shadeOf(samples: readonly ShadeSample[]): Shade | null {
  const parts: ShadeSample[][] = Array.from({ length: sectors * rings }, () => [])
  for (const sample of samples) parts[partOf(sample.x, sample.y)]!.push(sample)
  const seen = parts.flatMap((own, at): (LitPlace & { at: number })[] => {
    if (own.length < fewest) return []
    const light = median(own.map(sample => sample.light))
    return [{ at, row: sweptRow(own), light, weight: Math.min(1, own.length / many) }]
  })
  if (seen.length < fewestPlaces) return null
  const strengths = lightAround(seen)
  const left = new Float64Array(sectors * rings).fill(Number.NaN)
  for (const { at, row, light } of seen) left[at] = light - lightBy(row, strengths)
  const shade = new Float32Array(sectors * rings)
  for (let sector = 0; sector < sectors; sector++) {
    const turn = (2 * Math.PI * (sector + 0.5)) / sectors
    let beside = 0
    for (let ring = 0; ring < rings; ring++) {
      beside = leftBeside(left, sector, ring) ?? beside
      const out = Math.sqrt(1 - (1 - (ring + 0.5) / rings) ** 2)
      const row = new Float64Array(lamps)
      addLight(row, out * Math.cos(turn), out * Math.sin(turn), 1)
      shade[sector * rings + ring] = Math.max(0, lightBy(row, strengths) + beside)
    }
  }
  return shade
}

/** What the lamps light of a part on the mean, over the places that it was at while the shutter was open. */
function sweptRow(own: readonly ShadeSample[]): Float64Array {
  const row = new Float64Array(lamps)
  const every = Math.ceil(own.length / mostSwept)
  const taken = own.filter((_, i) => i % every === 0)
  for (const { x, y, sweepX, sweepY } of taken) {
    const count = Math.hypot(sweepX, sweepY) < 0.02 ? 1 : moments
    const places = Array.from({ length: count }, (_, k) => {
      const at = (2 * k + 1) / count - 1
      return [x - at * sweepX, y - at * sweepY] as const
    }).filter(([u, v]) => u * u + v * v < 1)
    for (const [u, v] of places) addLight(row, u, v, 1 / places.length / taken.length)
  }
  return row
}

/** The middle of what the lamps left in a part and those around it; null where too few were seen. */
function leftBeside(left: Float64Array, sector: number, ring: number): number | null {
  const near: number[] = []
  for (let s = sector - 1; s <= sector + 1; s++)
    for (let r = Math.max(0, ring - 1); r <= Math.min(rings - 1, ring + 1); r++) {
      const value = left[((s + sectors) % sectors) * rings + r]!
      if (!Number.isNaN(value)) near.push(value)
    }
  return near.length > 2 ? median(near) : null
}

const depthOf = (x: number, y: number): number => 1 - Math.sqrt(Math.max(0, 1 - x * x - y * y))
const turnOf = (x: number, y: number): number => ((Math.atan2(y, x) / (2 * Math.PI) + 1) % 1) * sectors

const partOf = (x: number, y: number): number =>
  (Math.floor(turnOf(x, y)) % sectors) * rings + Math.min(rings - 1, Math.floor(depthOf(x, y) * rings))

/** Light of the bare shell at a place of the disc; beyond the rim, where a blur still shows ball, as at the rim. */
export function shadeAt(shade: Shade, x: number, y: number): number {
  const turn = turnOf(x, y) - 0.5
  const out = Math.max(0, Math.min(depthOf(x, y) * rings - 0.5, rings - 1.001))
  const sector = Math.floor(turn)
  const ring = Math.floor(out)
  const a = ((sector + sectors) % sectors) * rings + ring
  const b = ((sector + 1) % sectors) * rings + ring
  const first = shade[a]! + (out - ring) * (shade[a + 1]! - shade[a]!)
  const second = shade[b]! + (out - ring) * (shade[b + 1]! - shade[b]!)
  return first + (turn - sector) * (second - first)
}
