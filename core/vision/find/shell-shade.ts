import { choleskyFactor, choleskySolve } from '../../numerics/cholesky.ts'
import { median } from '../../numerics/median.ts'
import { robustWeight } from '../../numerics/robust-weight.ts'

/** How bright the bare shell is by where it faces: rings of sectors, see `shadeAt`. */
export type Shade = Float32Array
/** Light seen at a place of the disc, in radii from its middle. */
export type ShadeSample = { x: number; y: number; light: number }

const sectors = 24
const rings = 20
const fewest = 5
/** From the outermost ring that was seen well so far inwards, in radii, the shade tells how it goes on to the rim. */
const straight = 0.4

/**
 * The shell's shade from light seen in all frames of a flight: the median in each part of the disc, as most of a
 * ball is shell, not hole. Towards the rim, where a blur hides it, it goes on along each radius as a matt
 * ball's does. Null when some direction was not seen at all.
 */
export function shadeOf(samples: readonly ShadeSample[]): Shade | null {
  const bySector: ShadeSample[][] = Array.from({ length: sectors }, () => [])
  for (const sample of samples) bySector[sectorOf(sample.x, sample.y) % sectors]!.push(sample)
  const shade = new Float32Array(sectors * rings)
  for (let s = 0; s < sectors; s++) {
    const there = [-1, 0, 1].flatMap(k => bySector[(s + k + sectors) % sectors]!)
    const byRing: number[][] = Array.from({ length: rings }, () => [])
    for (const { x, y, light } of there) byRing[Math.min(rings - 1, ringOf(x, y))]!.push(light)
    const lights = byRing.map(lights => (lights.length >= fewest ? median(lights) : null))
    const outermost = lights.findLastIndex(light => light !== null)
    if (outermost < 0) return null
    const line = lineOut(lights, outermost)
    for (let r = 0; r < rings; r++) {
      const near = lights[r] ?? lights.slice(r).find(light => light !== null)
      shade[s * rings + r] = Math.max(r > outermost - 2 || near == null ? line(r) : near, 0)
    }
  }
  return shade
}

const sectorOf = (x: number, y: number): number =>
  Math.floor(((Math.atan2(y, x) / (2 * Math.PI) + 1) % 1) * sectors)
const ringOf = (x: number, y: number): number => Math.floor(Math.hypot(x, y) * rings)

/**
 * Along one radius a matt ball's light is a constant, a share that grows outwards, and one that falls with how
 * squarely the shell faces the camera, fast at the rim: these three through the outer rings, each held to little;
 * rings that stand off lose weight.
 */
function lineOut(lights: readonly (number | null)[], outermost: number): (ring: number) => number {
  const points = lights.flatMap((light, r) =>
    light !== null && r > outermost - straight * rings && r <= outermost ? [{ row: rowOf(r), light }] : [],
  )
  const usual = median(points.map(point => point.light))
  // The further there is to go, the less the slopes are trusted.
  const held = 0.02
  const line = new Float64Array([usual, 0, 0])
  const at = (row: readonly number[]) => line[0]! + line[1]! * row[1]! + line[2]! * row[2]!
  for (let round = 0; round < 4; round++) {
    const left = points.map(({ row, light }) => light - at(row))
    const scale = Math.max(1.4826 * median(left.map(Math.abs)), 0.003)
    const normal = Float64Array.of(0, 0, 0, 0, held, 0, 0, 0, held)
    const pull = new Float64Array(3)
    points.forEach(({ row, light }, i) => {
      const weight = robustWeight(left[i]!, scale, 2)
      for (let a = 0; a < 3; a++) {
        pull[a]! += weight * row[a]! * light
        for (let b = 0; b < 3; b++) normal[3 * a + b]! += weight * row[a]! * row[b]!
      }
    })
    if (!choleskyFactor(normal, 3)) break
    choleskySolve(normal, 3, pull)
    line.set(pull)
  }
  return ring => at(rowOf(ring))
}

/** 1, the distance from the middle, and the facing of the shell at a ring's middle. */
function rowOf(ring: number): readonly number[] {
  const out = Math.min((ring + 0.5) / rings, 1)
  return [1, out, Math.sqrt(1 - out * out)]
}

/** Light of the bare shell at a place of the disc; beyond the rim, where a blur still shows ball, as at the rim. */
export function shadeAt(shade: Shade, x: number, y: number): number {
  const turn = ((Math.atan2(y, x) / (2 * Math.PI) + 1) % 1) * sectors - 0.5
  const out = Math.max(0, Math.min(Math.sqrt(x * x + y * y) * rings - 0.5, rings - 1.001))
  const sector = Math.floor(turn)
  const ring = Math.floor(out)
  const a = ((sector + sectors) % sectors) * rings + ring
  const b = ((sector + 1) % sectors) * rings + ring
  const first = shade[a]! + (out - ring) * (shade[a + 1]! - shade[a]!)
  const second = shade[b]! + (out - ring) * (shade[b + 1]! - shade[b]!)
  return first + (turn - sector) * (second - first)
}
