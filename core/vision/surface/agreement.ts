import { rotationFromVector, turnedBack } from '../../geometry/rotation.ts'
import { scaled, type Vector } from '../../geometry/vector.ts'
import { evidenceIn, patches } from './evidence.ts'
import { facing, product, transposed } from './pair.ts'
import type { Sight } from './sights.ts'
import type { Sheets } from './textures.ts'

const places = 1300
/** Places spread evenly over a ball, on a spiral whose turns are the golden angle: x, y, z one after the other. */
const ball = Float32Array.from({ length: 3 * places }, (_, at) => {
  const k = Math.floor(at / 3)
  const z = 1 - (2 * k + 1) / places
  if (at % 3 === 2) return z
  const turn = k * Math.PI * (3 - Math.sqrt(5))
  return Math.sqrt(1 - z * z) * (at % 3 === 0 ? Math.cos(turn) : Math.sin(turn))
})
/** How many of them one disc shows. */
const wholeDisc = (places * (1 - facing)) / 2
/** A place that others show for less than this, in looks straight on, says nothing. */
const leastShown = 0.3
/** What a place's mean over the others is drawn to zero by, in looks straight on: few looks are noisy. */
const drawnBy = 0.7

export type Agreement = (rotation: Vector) => Float64Array

/**
 * How far each frame agrees with what all others show of the ball when a rotation turns them back to one pose:
 * the evidence of their correlation (evidence.ts), one number a frame. Motion smears all frames alike, in the
 * ball's own axes along the circles about its axis: smeared is held against smeared. `stride` looks at every so
 * many-th place only. The answer's numbers are the caller's own.
 */
export function agreementOn(sheets: Sheets, sights: readonly Sight[], stride = 1): Agreement {
  const looks = sights.map(() => lookFor(Math.ceil(places / stride)))
  const sum = new Float32Array(places)
  const total = new Float32Array(places)
  return rotation => {
    sum.fill(0)
    total.fill(0)
    sights.forEach((sight, i) => {
      const seen = looks[i]!
      look(sheets, i, sight, rotation, stride, seen)
      for (let n = 0; n < seen.count; n++) {
        sum[seen.place[n]!]! += seen.weight[n]! * seen.value[n]!
        total[seen.place[n]!]! += seen.weight[n]!
      }
    })
    return Float64Array.from(looks, seen => likenessTo(seen, sum, total, stride))
  }
}

/** What one frame shows: places, the pattern there, and how squarely they are seen; `count` of them. */
type Look = { place: Int16Array; value: Float32Array; weight: Float32Array; count: number }
const lookFor = (size: number): Look => ({
  place: new Int16Array(size),
  value: new Float32Array(size),
  weight: new Float32Array(size),
  count: 0,
})

function likenessTo(seen: Look, sum: Float32Array, total: Float32Array, stride: number): number {
  let [s, a, b, aa, bb, ab, count] = [0, 0, 0, 0, 0, 0, 0]
  for (let n = 0; n < seen.count; n++) {
    const own = seen.weight[n]!
    const others = total[seen.place[n]!]! - own
    if (others < leastShown) continue
    const mine = seen.value[n]!
    const theirs = (sum[seen.place[n]!]! - own * mine) / (others + drawnBy)
    const w = own * Math.min(others, 1)
    count++
    s += w
    a += w * mine
    b += w * theirs
    aa += w * mine * mine
    bb += w * theirs * theirs
    ab += w * mine * theirs
  }
  const spread = (aa - (a * a) / s) * (bb - (b * b) / s)
  const correlation = spread > 0 ? (ab - (a * b) / s) / Math.sqrt(spread) : 0
  return evidenceIn(correlation, (patches * count * stride) / wholeDisc)
}

function look(
  { disc: { half, size }, values }: Sheets,
  i: number,
  { toCamera, timeSeconds, shearSeconds }: Sight,
  rotation: Vector,
  stride: number,
  seen: Look,
): void {
  const r = product(transposed(toCamera), rotationFromVector(scaled(rotation, timeSeconds)))
  const [r0, r1, r2, r3, r4, r5, r6, r7, r8] = r
  const [wx, wy, wz] = turnedBack(toCamera, rotation)
  const sheet = values[i]!
  const { place, value, weight } = seen
  let count = 0
  for (let k = 0; k < places; k += stride) {
    const px = ball[3 * k]!
    const py = ball[3 * k + 1]!
    const pz = ball[3 * k + 2]!
    let z = r6 * px + r7 * py + r8 * pz
    if (z > -facing) continue
    let x = r0 * px + r1 * py + r2 * pz
    let y = r3 * px + r4 * py + r5 * pz
    if (shearSeconds !== 0) {
      // A row further down is seen later: the place has turned on by ω × p a second.
      const dt = shearSeconds * y
      const tx = x + dt * (wy * z - wz * y)
      const ty = y + dt * (wz * x - wx * z)
      const tz = z + dt * (wx * y - wy * x)
      const norm = 1 / Math.sqrt(tx * tx + ty * ty + tz * tz)
      x = tx * norm
      y = ty * norm
      z = tz * norm
      if (z > -facing) continue
    }
    const u = (x + 1) * half
    const v = (y + 1) * half
    const column = u | 0
    const row = v | 0
    const a = u - column
    const at = row * size + column
    const top = sheet[at]! + a * (sheet[at + 1]! - sheet[at]!)
    const bottom = sheet[at + size]! + a * (sheet[at + size + 1]! - sheet[at + size]!)
    place[count] = k
    value[count] = top + (v - row) * (bottom - top)
    weight[count] = -z
    count++
  }
  seen.count = count
}

export const totalOf = (agreement: Float64Array): number => agreement.reduce((sum, one) => sum + one, 0)
