import type { Marks } from '../../../core/contract/marks.ts'
import { type Cell, drawFactors, type Factors } from './factors.ts'
import { type Chance, chanceOf } from './random.ts'
import {
  bodyAt,
  centreAt,
  drawScene,
  heightOver,
  outlineIn,
  type Scene,
  type SceneMark,
  seenAt,
  timeOfReading,
  turnedSeconds,
} from './scene.ts'
import { add, norm, type P3 } from './space.ts'

/** A sighting as it came about, for whoever computes what could have been known from it. */
export type TrueSighting = { frame: number; mark: number; kind: 'point' | 'direction'; likeness: number }

/** Who made the marks and what of their errors is drawn once a hit. */
export type Person = {
  clickPx: number
  /** Clicks land on whole pixels. */
  rounds: boolean
  /** Frames whose outline was placed by hand; between them it is interpolated. */
  placed: number[]
  outlineClickPx: number
  outlineBiasPx: number
}

export type SimulatedHit = {
  document: Marks
  factors: Factors
  cell: Cell
  scene: Scene
  person: Person
  sightings: TrueSighting[]
  truth: { rpm: number; axis: P3; sense: 'clockwise' | 'counter-clockwise' }
}

/** Relative uncertainty of capture rates that come with one. */
const statedCaptureUncertainty = 0.0005
/** Known readouts and focal lengths are right to these shares (standard deviation). */
export const readoutShare = 0.1
export const focalShare = 0.02
const missed = 0.05
/** Outlines are placed in every n-th frame, and may be biased by this share of a click error. */
export const outlineStrides = [1, 4, 1000]
export const outlineBiasShare = 0.5

/** A hit drawn from the grid. Without errors all that is seen and known is exact, for checking models. */
export function simulateHit(seed: number, errors: 'drawn' | 'none' = 'drawn'): SimulatedHit {
  const chance = chanceOf(seed)
  const drawn = chance.normal
  // The chance is still used up, so that a seed stands for the same hit with and without errors.
  if (errors === 'none') chance.normal = sd => 0 * drawn(sd)
  const { factors, cell } = drawFactors(chance)
  const { indices, clock } = drawFrames(factors, chance)
  const isStated = chance.happens(0.5)
  const unstated = chance.pick([0, -0.001])
  const stated = chance.normal(statedCaptureUncertainty)
  const captureError = errors === 'none' ? 0 : isStated ? stated : unstated
  const scene = drawScene(
    factors,
    clock.map(t => t / (1 + captureError)),
    chance,
  )
  const person: Person = {
    clickPx: factors.clickPx,
    rounds: chance.happens(errors === 'none' ? 0 : 0.5),
    placed: placedFrames(indices.length, chance.pick(outlineStrides)),
    outlineClickPx: factors.outline === 'exact' ? 0 : factors.clickPx,
    outlineBiasPx: factors.outline === 'rim clicks and bias' ? outlineBiasShare * factors.clickPx : 0,
  }
  const outlines = drawOutlines(scene, person, chance)
  const marksHidden = chance.happens(0.7)
  const sightings: TrueSighting[] = []
  const frames = indices.map((index, frame): Marks['frames'][number] => {
    const seen: Marks['frames'][number]['seen'] = []
    const hidden: string[] = []
    scene.marks.forEach((mark, m) => {
      const look = lookAt(scene, mark, frame, errors === 'drawn' ? 1 : 0, chance)
      if (!look) {
        if (marksHidden) hidden.push(`m${m}`)
        return
      }
      if (chance.happens(missed)) return
      const sighting = look.along
        ? directionOf(scene, look, outlines[frame]!.radiusPx, `m${m}`, mark, person, chance)
        : pointOf(look, `m${m}`, person, chance)
      if (!sighting) return
      seen.push(sighting)
      sightings.push({ frame, mark: m, kind: look.along ? 'direction' : 'point', likeness: look.likeness })
    })
    return { index, ...timeOf(clock[frame]!, factors), outline: outlines[frame]!, seen, hidden }
  })
  return {
    document: {
      schema: 'whorl.marks/1',
      capture: {
        fps: factors.fps,
        ...(isStated && { relativeUncertainty: statedCaptureUncertainty }),
        ...(factors.exposureKnown && { exposureSeconds: scene.exposureSeconds }),
        ...(factors.readoutKnown && {
          readoutSeconds: Math.max(scene.readoutSeconds * (1 + chance.normal(readoutShare)), 0),
        }),
        ...(factors.focalKnown && { focalLengthPx: scene.focalPx * (1 + chance.normal(focalShare)) }),
        ...(factors.tickSeconds && { tickSeconds: factors.tickSeconds }),
      },
      picture: { widthPx: scene.widthPx, heightPx: scene.heightPx },
      ball: { diameterMetres: 2 * scene.ballRadius },
      plausible: {
        ...(factors.senseKnown && factors.tiltDeg < 80 && { sense: senseOf(scene) }),
      },
      marks: scene.marks.map((mark, m) => ({ id: `m${m}`, symmetryOrder: mark.symmetryOrder })),
      frames,
      ...(factors.clickStated && {
        click: { standardUncertaintyPx: factors.clickPx * Math.exp(chance.normal(0.1)) },
      }),
    },
    factors,
    cell,
    scene,
    person,
    sightings,
    truth: truthOf(scene, sightings),
  }
}

const senseOf = (scene: Scene) => (scene.spin[2] > 0 ? 'clockwise' : 'counter-clockwise')

/** Frame numbers, and when the camera's own clock says they were taken. */
function drawFrames({ frames, fps, times }: Factors, chance: Chance): { indices: number[]; clock: number[] } {
  let index = Math.floor(chance.between(0, 50))
  const indices = [index]
  while (indices.length < frames) {
    index += times === 'gaps' && chance.happens(0.15) ? Math.round(chance.between(2, 3)) : 1
    indices.push(index)
  }
  const wander = times === 'uneven' ? 0.12 : 0
  return { indices, clock: indices.map(i => (i + chance.between(-wander, wander)) / fps) }
}

/** Times as the file has them: none, or rounded to its tick. Uneven ones must be told. */
function timeOf(clock: number, { tickSeconds, times }: Factors): { timeSeconds?: number } {
  const tick = tickSeconds ?? (times === 'uneven' ? 1 / 90000 : null)
  return tick === null ? {} : { timeSeconds: Math.round(clock / tick) * tick }
}

export function placedFrames(count: number, stride: number): number[] {
  const placed: number[] = []
  for (let i = 0; i < count - 1; i += stride) placed.push(i)
  return [...placed, count - 1]
}

/** Shares of the two placed outlines that frame i lies between. */
export function placedShares(placed: number[], i: number): { at: number; share: number }[] {
  const after = placed.findIndex(p => p >= i)
  if (placed[after] === i) return [{ at: after, share: 1 }]
  const [a, b] = [placed[after - 1]!, placed[after]!]
  const late = (i - a) / (b - a)
  return [
    { at: after - 1, share: 1 - late },
    { at: after, share: late },
  ]
}

/** Three rim clicks in each placed frame, interpolated between, and a bias of the whole hit (a soft or lit edge). */
function drawOutlines(scene: Scene, person: Person, chance: Chance) {
  const perPlaced = person.placed.map(() => ({
    x: chance.normal(person.outlineClickPx * Math.sqrt(2 / 3)),
    y: chance.normal(person.outlineClickPx * Math.sqrt(2 / 3)),
    r: chance.normal(person.outlineClickPx / Math.sqrt(3)),
  }))
  const bias = [1, 2, 3].map(() => chance.normal(person.outlineBiasPx))
  return scene.frameSeconds.map((_, i) => {
    const outline = outlineIn(scene, i)
    const error = (of: 'x' | 'y' | 'r') =>
      placedShares(person.placed, i).reduce((sum, { at, share }) => sum + share * perPlaced[at]![of], 0)
    return {
      xPx: outline.xPx + error('x') + bias[0]!,
      yPx: outline.yPx + error('y') + bias[1]!,
      radiusPx: Math.max(outline.radiusPx + error('r') + bias[2]!, 2),
    }
  })
}

/** A mark that shows in a frame: when its row was read, and where it was within the exposure when clicked. */
type Look = {
  likeness: number
  clickedSeconds: number
  place: P3
  along: P3 | null
  xPx: number
  yPx: number
}

function lookAt(
  scene: Scene,
  mark: SceneMark,
  frame: number,
  smearShare: number,
  chance: Chance,
): Look | null {
  const likenesses = mark.along ? 1 : mark.symmetryOrder
  const looks: Look[] = []
  for (let likeness = 0; likeness < likenesses; likeness++) {
    const repeat = (2 * Math.PI * likeness) / mark.symmetryOrder
    const placeAt = (t: number) => bodyAt(scene, mark.place, t, repeat)
    const onBall = (t: number) => add(centreAt(scene, t), placeAt(t), scene.ballRadius)
    const t = timeOfReading(scene, frame, at => seenAt(scene, onBall(at))[1])
    if (heightOver(scene, placeAt(t), t) < scene.showsFrom) continue
    const clicked = t + chance.between(-0.5, 0.5) * scene.exposureSeconds * smearShare
    const [xPx, yPx] = seenAt(scene, onBall(clicked))
    const along = mark.along && bodyAt(scene, mark.along, clicked)
    looks.push({ likeness, clickedSeconds: clicked, place: placeAt(clicked), along, xPx, yPx })
  }
  return looks.length > 0 ? chance.pick(looks) : null
}

function pointOf(look: Look, mark: string, { clickPx, rounds }: Person, chance: Chance) {
  const land = (x: number) => (rounds ? Math.round(x) : x)
  return { mark, xPx: land(look.xPx + chance.normal(clickPx)), yPx: land(look.yPx + chance.normal(clickPx)) }
}

/** The run of a printed line, judged by a line through the ball: its ends are set at the rim, if it shows its run. */
function directionOf(
  scene: Scene,
  look: Look,
  radiusPx: number,
  mark: string,
  { symmetryOrder }: SceneMark,
  { clickPx }: Person,
  chance: Chance,
) {
  const here = add(centreAt(scene, look.clickedSeconds), look.place, scene.ballRadius)
  const [x, y] = seenAt(scene, here)
  const [a, b] = seenAt(scene, add(here, look.along!, 0.01 * scene.ballRadius))
  const shows = Math.hypot(a - x, b - y) / (0.01 * radiusPx)
  if (shows < 0.2) return null
  const bearing = Math.atan2(b - y, a - x) + chance.normal(clickPx / (radiusPx * shows))
  const turned = bearing + (2 * Math.PI * Math.floor(chance.between(0, symmetryOrder))) / symmetryOrder
  return { mark, bearingDeg: (turned * 180) / Math.PI }
}

/** What a reading should say: the mean rate between the first and the last sighting, and the axis. */
function truthOf(scene: Scene, sightings: TrueSighting[]): SimulatedHit['truth'] {
  const times = sightings.map(s => scene.frameSeconds[s.frame]!)
  const first = times.length > 1 ? Math.min(...times) : 0
  const last = times.length > 1 ? Math.max(...times) : first + 1e-6
  const mean = last > first ? (turnedSeconds(scene, last) - turnedSeconds(scene, first)) / (last - first) : 1
  const rate = norm(scene.spin)
  return {
    rpm: (rate * mean * 60) / (2 * Math.PI),
    axis: scene.spin.map(x => x / rate) as P3,
    sense: senseOf(scene),
  }
}
