import type { MarkedFrame, Marks, Sense } from '../../../core/contract/marks.ts'
import { chanceOf } from '../../bench/simulate/random.ts'

type P3 = [number, number, number]

/** A hit as it is, seen from far away: turn by turn, mark by mark, with spoilers that are off by default. */
export type Truth = {
  /** Clockwise on the screen is positive. */
  rpm: number
  fps: number
  frames: number
  radiusPx: number
  /** Standard deviation of a click, px a coordinate; of a direction as an arc at the rim. */
  clickPx: number
  seed: number
  kind: 'point' | 'direction'
  marks: { id: string; symmetryOrder: number; offsetShare: number; startDeg: number }[]
  /** Angle of the axis from the line of sight, and towards which bearing it leans. */
  tiltDeg: number
  leanDeg: number
  /** Ball's centre at time 0 and its velocity. */
  centre: { xPx: number; yPx: number }
  velocity: { xPxPerSecond: number; yPxPerSecond: number }
  readoutSeconds: number
  /** Change of rate, rpm a second. */
  rpmPerSecond: number
  /** Real time of frame i; even by default. */
  timeOf: (index: number) => number
  /** Time as it is written into the marks; null leaves it out. */
  writtenTime: (seconds: number) => number | null
  sense: Sense | null
  maxRpm: number | null
  statedClickPx: number | null
  capture: Partial<Marks['capture']>
}

const heightPx = 540

/** Marks as a person would have set them on this hit. A mark that faces away is marked hidden. */
export function marksOf(spoilers: Partial<Truth> = {}): Marks {
  const fps = spoilers.fps ?? 240
  const truth: Truth = {
    rpm: 2330,
    fps,
    frames: 24,
    radiusPx: 36,
    clickPx: 0,
    seed: 1,
    kind: 'point',
    marks: [{ id: 'logo', symmetryOrder: 1, offsetShare: 0.6, startDeg: 20 }],
    tiltDeg: 0,
    leanDeg: 30,
    centre: { xPx: 300, yPx: 260 },
    velocity: { xPxPerSecond: 0, yPxPerSecond: 0 },
    readoutSeconds: 0,
    rpmPerSecond: 0,
    timeOf: index => index / fps,
    writtenTime: () => null,
    sense: null,
    maxRpm: null,
    statedClickPx: null,
    capture: {},
    ...spoilers,
  }
  const chance = chanceOf(truth.seed)
  const frames = Array.from({ length: truth.frames }, (_, index) => frameOf(truth, index, chance.normal))
  return {
    schema: 'whorl.marks/1',
    capture: {
      fps,
      relativeUncertainty: 0,
      readoutSeconds: truth.readoutSeconds,
      focalLengthPx: 1e6,
      ...truth.capture,
    },
    picture: { widthPx: 960, heightPx },
    ball: { diameterMetres: 0.074 },
    plausible: {
      ...(truth.maxRpm === null ? {} : { maxRpm: truth.maxRpm }),
      ...(truth.sense === null ? {} : { sense: truth.sense }),
    },
    marks: truth.marks.map(({ id, symmetryOrder }) => ({ id, symmetryOrder })),
    frames,
    ...(truth.statedClickPx === null ? {} : { click: { standardUncertaintyPx: truth.statedClickPx } }),
  }
}

function frameOf(truth: Truth, index: number, normal: (deviation: number) => number): MarkedFrame {
  const start = truth.timeOf(index)
  const centreAt = (t: number) => ({
    xPx: truth.centre.xPx + truth.velocity.xPxPerSecond * t,
    yPx: truth.centre.yPx + truth.velocity.yPxPerSecond * t,
  })
  /** When the rolling shutter reads the row that shows `dy` below the centre: solved by going round. */
  const readAt = (dyOf: (t: number) => number) => {
    let t = start
    for (let i = 0; i < 6; i++) t = start + (truth.readoutSeconds * (centreAt(t).yPx + dyOf(t))) / heightPx
    return t
  }
  // A ball that falls while its rows are read shows as an ellipse, longer by what it falls meanwhile.
  const longer = 1 + (truth.velocity.yPxPerSecond * truth.readoutSeconds) / (2 * heightPx)
  const outline = { ...centreAt(readAt(() => 0)), radiusPx: truth.radiusPx * longer }
  const seen: MarkedFrame['seen'] = []
  const hidden: string[] = []
  for (const mark of truth.marks) {
    const placeAt = (t: number) => turned(placeOf(mark, truth), truth, t)
    const t = readAt(at => truth.radiusPx * placeAt(at)[1])
    const u = placeAt(t)
    const now = centreAt(t)
    if (truth.kind === 'direction') {
      const bearingDeg = degrees(Math.atan2(u[1], u[0]) + normal(truth.clickPx) / truth.radiusPx)
      seen.push({ mark: mark.id, bearingDeg })
    } else if (u[2] > -0.1) hidden.push(mark.id)
    else
      seen.push({
        mark: mark.id,
        xPx: now.xPx + truth.radiusPx * u[0] + normal(truth.clickPx),
        yPx: now.yPx + truth.radiusPx * u[1] + normal(truth.clickPx),
      })
  }
  const timeSeconds = truth.writtenTime(start)
  return {
    index,
    ...(timeSeconds === null ? {} : { timeSeconds }),
    outline,
    seen,
    ...(hidden.length > 0 ? { hidden } : {}),
  }
}

/** Where a mark is at time 0: at a share of the radius about the axis, on the side that faces the camera. */
function placeOf({ offsetShare, startDeg }: Truth['marks'][number], truth: Truth): P3 {
  const across = radians(startDeg)
  const upright: P3 = [
    offsetShare * Math.cos(across),
    offsetShare * Math.sin(across),
    -Math.sqrt(1 - offsetShare ** 2),
  ]
  const lean = radians(truth.leanDeg)
  return rotated(upright, [-Math.sin(lean), Math.cos(lean), 0], radians(truth.tiltDeg))
}

function turned(place: P3, truth: Truth, t: number): P3 {
  const lean = radians(truth.leanDeg)
  const axis = rotated([0, 0, 1], [-Math.sin(lean), Math.cos(lean), 0], radians(truth.tiltDeg))
  const turns = (truth.rpm * t + (truth.rpmPerSecond * t * t) / 2) / 60
  return rotated(place, axis, 2 * Math.PI * turns)
}

/** Rodrigues' rotation formula. */
function rotated([x, y, z]: P3, [a, b, c]: P3, angle: number): P3 {
  const [cos, sin] = [Math.cos(angle), Math.sin(angle)]
  const along = (a * x + b * y + c * z) * (1 - cos)
  return [
    x * cos + (b * z - c * y) * sin + a * along,
    y * cos + (c * x - a * z) * sin + b * along,
    z * cos + (a * y - b * x) * sin + c * along,
  ]
}

const radians = (deg: number) => (deg * Math.PI) / 180
const degrees = (rad: number) => (rad * 180) / Math.PI
