import { BALL_METRES } from './compose.ts'
import { type Choices, drawScene, type Surface } from './draw-scene.ts'
import { outlineOf, project } from './outline.ts'
import { randomFrom } from './random.ts'
import { centreAt } from './region.ts'
import type { Scene } from './scene.ts'
import { truthOf } from './truth.ts'

/** What an estimator may be tuned on, and what it must never have seen while it is tuned. */
const tuning: Choices = {
  lamps: ['overhead-panel', 'side-window', 'low-sun', 'two-floods'],
  backdrops: ['hall', 'workshop', 'court', 'paper', 'curtain'],
  layouts: ['forty', 'twenty-six', 'thirty-two'],
  logos: ['pennant', 'comet', 'ridge', 'curl'],
}
const heldOut: Choices = {
  lamps: ['back-flood'],
  backdrops: ['brick', 'shelves'],
  layouts: ['thirty-six'],
  logos: ['fork'],
}

export type Part = 'tuning' | 'held-out'
export type TestHit = { scene: Scene; part: Part; surface: Surface }

/** Can the hit be judged: enough whole frames of each flight, radii within 20–70 px, the logo seen often enough? */
function isFair(scene: Scene, surface: Surface): boolean {
  const { flights, captured, camera, ball } = scene
  const middle = outlineOf(centreAt(scene, captured / 2 / camera.fps), BALL_METRES / 2, camera)
  const [x] = project(centreAt(scene, captured / 2 / camera.fps), camera)
  if (middle.tangentialPx < 20 || middle.tangentialPx > 70 || x < 0 || x > camera.widthPx) return false
  const truth = truthOf(scene)
  if (truth.flights.length !== flights.length) return false
  const least = flights.length === 1 ? (camera.fps === 240 ? 16 : 12) : 8
  return truth.flights.every(flight => {
    const shown = flight.frames.filter(frame =>
      ball.prints.some(({ id, kind }) => kind === 'logo' && frame.marks[id]!.facing > 0.35),
    )
    const inSight = surface !== 'logo' || shown.length >= 0.5 * flight.frames.length
    const radii = flight.frames.map(frame => frame.radiusPx)
    return flight.frames.length >= least && inSight && Math.min(...radii) >= 18 && Math.max(...radii) <= 75
  })
}

/**
 * `count` hits drawn at random: axes anywhere, 300–3000 rpm, 120 and 240 fps, radius 20–70 px, exposure
 * 1/250–1/4000, noise, H.264 at crf 18–28, holes, logo or both. Every fourth is held out: its lamp,
 * backdrop, hole layout and logo occur nowhere in the others. The same seed gives the same set, and a
 * longer set begins with the shorter one.
 */
export function* testSet(count: number, seed: number): Generator<TestHit> {
  const surfaces: Surface[] = ['holes', 'holes-and-logo', 'holes', 'holes-and-logo', 'logo']
  for (let i = 0; i < count; i++) {
    const part: Part = i % 4 === 3 ? 'held-out' : 'tuning'
    const surface = surfaces[i % surfaces.length]!
    const random = randomFrom(`test set ${seed}, hit ${i}`)
    const name = `hit-${String(i).padStart(4, '0')}`
    let scene: Scene
    do scene = drawScene(random, name, seed * 10_000 + i, part === 'tuning' ? tuning : heldOut, surface)
    while (!isFair(scene, surface))
    yield { scene, part, surface }
  }
}
