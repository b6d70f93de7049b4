import type { MarkedFrame, Marks, Sighting } from '../contract/marks.ts'
import type { PlanSetUp } from '../contract/plan.ts'
import { type BallView, ballView, heightOverRim, pixelOf } from '../geometry/ball-view.ts'
import type { Circle } from '../geometry/circle.ts'
import { outlineOfSphere } from '../geometry/outline-of-sphere.ts'
import { rotationFromVector, turned } from '../geometry/rotation.ts'
import { length, scaled, unit, type Vector } from '../geometry/vector.ts'
import { seededRandom } from '../numerics/seeded-random.ts'
import { readoutDelaySeconds } from '../timing/readout.ts'
import { degOfRad } from '../units/angle.ts'
import { radPerSecondOfRpm } from '../units/rate.ts'
import { markedFramesOf, pinholeOf } from './in-view.ts'
import { axisOf, type BallMark, ballMarksOf, shows } from './planned-mark.ts'

/** How well a set-up's figures are known once it is filmed with. Common practice, no source. */
const captureRelative = 0.001 / Math.sqrt(3)

/**
 * A hit as this set-up would film it and a person would mark it: clicks with their error, anywhere in the
 * smear, on a ball that crosses the picture's middle. To be read by the same code that reads real marks.
 *
 * @param seed the start of the turn and the clicks; the same seed gives the same hit
 */
export function imaginedHit(setUp: PlanSetUp, seed: number): Marks {
  const chance = seededRandom(seed)
  const marks = ballMarksOf(setUp, 2 * Math.PI * chance())
  const { count, every } = markedFramesOf(setUp)
  const misplaced = misplacedBy(setUp.clickPx, count, chance)
  const frames = Array.from({ length: count }, (_, i) => {
    const frame = frameOf(setUp, marks, every * (i - (count - 1) / 2), misplaced(i), chance)
    return { index: every * i, ...frame }
  })
  return {
    schema: 'whorl.marks/1',
    capture: {
      fps: setUp.captureFps,
      relativeUncertainty: captureRelative,
      exposureSeconds: setUp.exposureSeconds,
      readoutSeconds: setUp.readoutSeconds,
      focalLengthPx: setUp.focalLengthPx,
    },
    picture: { widthPx: setUp.widthPx, heightPx: setUp.heightPx },
    ball: { diameterMetres: setUp.ballDiameterMetres },
    plausible: {
      maxRpm: Math.max(2 * setUp.rpm, 5000),
      ...(setUp.senseKnown ? { sense: 'clockwise' as const } : {}),
    },
    marks: marks.map(({ id, symmetryOrder }) => ({ id, symmetryOrder })),
    frames,
    click: { standardUncertaintyPx: setUp.clickPx },
  }
}

function frameOf(
  setUp: PlanSetUp,
  marks: BallMark[],
  fromMiddle: number,
  misplaced: Circle,
  chance: () => number,
): Omit<MarkedFrame, 'index'> {
  const start = fromMiddle / setUp.captureFps
  // The ball's own row is read later too; the flight is level, so all frames are late alike.
  const view = viewAt(setUp, start + readoutDelaySeconds(setUp.heightPx / 2, setUp, setUp.readoutSeconds))
  const outline = {
    xPx: view.outline.xPx + misplaced.xPx,
    yPx: view.outline.yPx + misplaced.yPx,
    radiusPx: Math.max(view.outline.radiusPx + misplaced.radiusPx, 1),
  }
  const seen: Sighting[] = []
  const hidden: string[] = []
  for (const mark of marks) {
    const clicked = (chance() - 0.5) * setUp.exposureSeconds
    const at = (t: number) => seenAt(setUp, mark, t)
    let t = start
    for (let round = 0; round < 4; round++)
      t = start + readoutDelaySeconds(at(t).yPx, setUp, setUp.readoutSeconds)
    const { height, xPx, yPx, bearingRad, showing } = at(t + clicked)
    if (!shows(height)) hidden.push(mark.id)
    else if (bearingRad === null)
      seen.push({
        mark: mark.id,
        ...insideOf(outline, xPx + setUp.clickPx * normal(chance), yPx + setUp.clickPx * normal(chance)),
      })
    else {
      const error = (setUp.clickPx * normal(chance)) / (view.outline.radiusPx * showing)
      seen.push({ mark: mark.id, bearingDeg: degOfRad(bearingRad + error) })
    }
  }
  return { outline, seen, ...(hidden.length > 0 ? { hidden } : {}) }
}

/**
 * By how much the outline of each frame is misplaced: three clicks on the rim in the first frame, the middle
 * one and the last, the others between them. Least squares through three points 120° apart gives the centre
 * σ√(2/3) a coordinate and the radius σ/√3.
 */
function misplacedBy(clickPx: number, count: number, chance: () => number): (index: number) => Circle {
  const placed = [0, 1, 2].map(() => ({
    xPx: clickPx * Math.sqrt(2 / 3) * normal(chance),
    yPx: clickPx * Math.sqrt(2 / 3) * normal(chance),
    radiusPx: (clickPx / Math.sqrt(3)) * normal(chance),
  }))
  return index => {
    const along = (2 * index) / Math.max(count - 1, 1)
    const [from, to] = along < 1 ? [placed[0]!, placed[1]!] : [placed[1]!, placed[2]!]
    const share = along < 1 ? along : along - 1
    const between = (of: keyof Circle) => (1 - share) * from[of] + share * to[of]
    return { xPx: between('xPx'), yPx: between('yPx'), radiusPx: between('radiusPx') }
  }
}

/** Nobody clicks beside the ball: a click that would fall there lands on the rim. */
function insideOf(outline: Circle, xPx: number, yPx: number): { xPx: number; yPx: number } {
  const [dx, dy] = [xPx - outline.xPx, yPx - outline.yPx]
  const inwards = Math.min(1, outline.radiusPx / Math.hypot(dx, dy))
  return { xPx: outline.xPx + inwards * dx, yPx: outline.yPx + inwards * dy }
}

/** The ball at a time, its flight along x through the middle of the picture at time 0. */
function viewAt(setUp: PlanSetUp, t: number): BallView {
  const centre: Vector = [setUp.speedMetresPerSecond * t, 0, setUp.distanceMetres]
  const camera = pinholeOf(setUp)
  const ball = { toBall: unit(centre), distanceRadii: (2 * length(centre)) / setUp.ballDiameterMetres }
  return ballView(outlineOfSphere(ball, camera), camera)
}

function seenAt(setUp: PlanSetUp, { place, run }: BallMark, t: number) {
  const view = viewAt(setUp, t)
  const turn = rotationFromVector(scaled(axisOf(setUp), radPerSecondOfRpm(setUp.rpm) * t))
  const u = turned(turn, place)
  const [xPx, yPx] = pixelOf(view, u)
  const seen = { height: heightOverRim(view, u), xPx, yPx, bearingRad: null, showing: 1 }
  if (!run) return seen
  const [dx, dy] = turned(turn, run)
  return { ...seen, bearingRad: Math.atan2(dy, dx), showing: Math.hypot(dx, dy) }
}

/** A normal deviate by the method of Box and Muller, Ann. Math. Stat. 29 (1958) 610. */
const normal = (chance: () => number): number =>
  Math.sqrt(-2 * Math.log(1 - chance())) * Math.cos(2 * Math.PI * chance())
