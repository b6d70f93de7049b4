import type { Slope } from './bound.ts'
import {
  focalShare,
  outlineBiasShare,
  outlineStrides,
  placedFrames,
  placedShares,
  readoutShare,
  type SimulatedHit,
} from './hit.ts'
import { differenceOf, offsetOf, outlinesOf, rowsOf, rowsPer } from './rows.ts'
import { type Scene, turnedSeconds, withMark } from './scene.ts'
import { smoothed } from './smooth.ts'
import { add, outer, type P3, times } from './space.ts'

/** px per second of every row, as its mark moves on. */
function speeds(hit: SimulatedHit): number[] {
  const outlines = outlinesOf(hit, hit.scene)
  const late = rowsOf(hit, hit.scene, outlines, 1e-6)
  return differenceOf(hit, late, rowsOf(hit, hit.scene, outlines)).map(moved => moved * 1e6)
}

/** Click, rounding and smear: what each sighting has for itself. Square matrix, row after row. */
export function ownNoise(hit: SimulatedHit): Float64Array {
  const { scene, person, sightings } = hit
  const speed = speeds(hit)
  const size = speed.length
  const matrix = new Float64Array(size * size)
  const smear = scene.exposureSeconds / Math.sqrt(12)
  const rounding = person.rounds ? 1 / 12 : 0
  let row = 0
  for (const s of sightings) {
    const end = row + rowsPer(s)
    const variance =
      s.kind === 'point' ? person.clickPx ** 2 + rounding : (person.clickPx / showing(hit, s)) ** 2
    for (let i = row; i < end; i++) {
      matrix[i * size + i]! += variance
      for (let k = row; k < end; k++) matrix[i * size + k]! += smear ** 2 * speed[i]! * speed[k]!
    }
    row = end
  }
  return matrix
}

/** How long a printed line looks, against its length square to the line of sight. */
function showing(hit: SimulatedHit, s: SimulatedHit['sightings'][number]): number {
  const at = { xPx: 0, yPx: 0 }
  const [x, y] = offsetOf(hit.scene, s, at, 0)
  const [a, b] = offsetOf(hit.scene, s, at, 0, 0.01)
  return Math.hypot(a - x, b - y) / (0.01 * hit.factors.radiusPx)
}

/** One column an error that several rows share: its effect on each row, for one standard deviation. */
export function sharedErrors(hit: SimulatedHit, slope: Slope): number[][] {
  return [...outlineErrors(hit), ...tickErrors(hit), ...placeErrors(hit, slope), ...sceneErrors(hit, slope)]
}

/**
 * Outlines as whoever reads the document can know of them: of three kinds alike (exact, rim clicks, rim clicks
 * and a bias of the hit), placed in every, every fourth or the end frames alike and interpolated between; none of
 * it is told. A kind that comes in one of three has a third of its variance. The ball's path is smooth, so each
 * outline is known as well as the path through them all leaves it (see smooth.ts).
 */
function outlineErrors(hit: SimulatedHit): number[][] {
  const { scene, factors } = hit
  const frames = scene.frameSeconds.length
  const clicked = factors.clickPx * Math.sqrt(2 / 3 / outlineStrides.length)
  const columns: number[][] = []
  for (const stride of outlineStrides) {
    const placed = placedFrames(frames, stride)
    placed.forEach((_, at) => {
      const shares = scene.frameSeconds.map(
        (_, frame) => placedShares(placed, frame).find(one => one.at === at)?.share ?? 0,
      )
      const onPath = smoothed(shares, scene.frameSeconds)
      columns.push(...outlineColumns(hit, onPath, clicked * Math.sqrt(2 / 3), clicked / Math.sqrt(3)))
    })
  }
  const always = scene.frameSeconds.map(() => 1)
  const bias = (outlineBiasShare * factors.clickPx) / Math.sqrt(3)
  columns.push(...outlineColumns(hit, { centre: always, radius: always }, bias, bias))
  return columns.filter(column => column.some(x => x !== 0))
}

function outlineColumns(
  hit: SimulatedHit,
  shares: { centre: number[]; radius: number[] },
  centrePx: number,
  radiusPx: number,
): number[][] {
  const outlines = outlinesOf(hit, hit.scene)
  const columns: [number[], number[], number[]] = [[], [], []]
  for (const s of hit.sightings) {
    const outline = outlines.get(s.frame)!
    const [centreShare, radiusShare] = [shares.centre[s.frame]!, shares.radius[s.frame]!]
    const [x, y] = offsetOf(hit.scene, s, outline, 0)
    const put = (dx: number, dy: number, dr: number) => {
      columns[0].push(dx * centreShare * centrePx)
      columns[1].push(dy * centreShare * centrePx)
      columns[2].push(dr * radiusShare * radiusPx)
    }
    if (s.kind === 'direction') put(0, 0, 0)
    else {
      put(-1, 0, -x / outline.radiusPx)
      put(0, -1, -y / outline.radiusPx)
    }
  }
  return columns
}

/** Rounding of each frame's time. Even times show their clock, so nothing is lost by rounding them. */
function tickErrors(hit: SimulatedHit): number[][] {
  const { sightings, factors } = hit
  if (factors.times !== 'uneven') return []
  const jitter = (factors.tickSeconds ?? 1 / 90000) / Math.sqrt(12)
  const speed = speeds(hit)
  return [...new Set(sightings.map(s => s.frame))].map(frame => {
    let row = 0
    return sightings.flatMap(s =>
      Array.from({ length: rowsPer(s) }, () => {
        const effect = speed[row++]!
        return s.frame === frame ? jitter * effect : 0
      }),
    )
  })
}

/**
 * The document tells the bearing of a line, not where on the ball it is: anywhere around its run, so that either
 * component of the place has the variance 1/2.
 */
function placeErrors({ scene }: SimulatedHit, slope: Slope): number[][] {
  return scene.marks.flatMap(({ place, along }, m) => {
    if (!along) return []
    return [place, outer(along, place)].map(e =>
      slope(by => withMark(scene, m, { place: add(place, e, by) }), 1e-4).map(x => x * Math.SQRT1_2),
    )
  })
}

/** Readout, focal length and decay of the spin, as far as the document leaves them open. */
function sceneErrors({ scene, factors }: SimulatedHit, slope: Slope): number[][] {
  const readoutSpread = factors.readoutKnown
    ? readoutShare * scene.readoutSeconds
    : // One of three shares of the frame interval (see factors.ts): their standard deviation.
      0.33 / factors.fps
  const readoutOf = (there: Scene) =>
    slope(by => ({ ...there, readoutSeconds: scene.readoutSeconds + by }), 1e-5, true)
  // Nobody knows in which row of the ball a line was read: it counts as read with the middle, and what its place
  // does to that, a product of two unknowns, has the variance of the product.
  const fromMiddle = readoutOf(
    scene.marks.reduce((there, m, i) => (m.along ? placedAt(there, i, [0, 0, 0]) : there), scene),
  )
  const ofPlaces = scene.marks.flatMap(({ place, along }, i) => {
    if (!along) return []
    const others = scene.marks.reduce(
      (there, m, k) => (m.along && k !== i ? placedAt(there, k, [0, 0, 0]) : there),
      scene,
    )
    return [place, outer(along, place)].map(e =>
      readoutOf(placedAt(others, i, e)).map((row, k) => (row - fromMiddle[k]!) * Math.SQRT1_2),
    )
  })
  // Relative spread of tan(half the field of view) over 25° to 70°.
  const focalSpread = factors.focalKnown ? focalShare : 0.31
  const focal = slope(by => withFocal(scene, 1 + by), 1e-3, true)
  const decay = slope(by => withDecay(scene, by), 1e-3)
  const scaled = (column: number[], by: number) => column.map(x => x * by)
  const readout = [fromMiddle, ...ofPlaces].map(column => scaled(column, readoutSpread))
  return [...readout, scaled(focal, focalSpread), scaled(decay, 0.05)]
}

const placedAt = (scene: Scene, m: number, place: P3) => withMark(scene, m, { place })

/** Another focal length under which the ball takes the same path in the picture. */
function withFocal(scene: Scene, factor: number): Scene {
  const { focalPx, start, velocity } = scene
  return {
    ...scene,
    focalPx: focalPx * factor,
    start: [start[0], start[1], start[2] * factor],
    velocity: [velocity[0], velocity[1], velocity[2] * factor],
  }
}

/** More decay, the mean rate over the hit held. */
function withDecay(scene: Scene, by: number): Scene {
  const mean = (s: Scene) => {
    const [first, last] = [s.frameSeconds[0]!, s.frameSeconds.at(-1)!]
    return (turnedSeconds(s, last) - turnedSeconds(s, first)) / (last - first)
  }
  const changed = { ...scene, decay: scene.decay + by }
  return { ...changed, spin: times(scene.spin, mean(scene) / mean(changed)) }
}
