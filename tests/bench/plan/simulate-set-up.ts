import type { Marks } from '../../../core/contract/marks.ts'
import type { PlanSetUp } from '../../../core/contract/plan.ts'
import { type Chance, chanceOf } from '../simulate/random.ts'
import {
  bodyAt,
  centreAt,
  heightOver,
  outlineIn,
  type Scene,
  seenAt,
  timeOfReading,
  turnedSeconds,
} from '../simulate/scene.ts'
import { add, norm, type P3, spun, square, times } from '../simulate/space.ts'

/**
 * Hits that a set-up would really give, by the simulator of bench:accuracy, which shares no geometry with the
 * planner: a ball that slows its spin, rim clicks for the outline in the first, the middle and the last frame,
 * a capture rate, a readout and a focal length that are not quite what the document says.
 */
export function simulateSetUp(setUp: PlanSetUp, seed: number): { document: Marks; truthRpm: number } {
  const chance = chanceOf(seed)
  const inView =
    Math.floor(
      ((setUp.widthPx * setUp.distanceMetres) / setUp.focalLengthPx - setUp.ballDiameterMetres) /
        (setUp.speedMetresPerSecond / setUp.captureFps),
    ) + 1
  // Every frame, or every second, third … where there are more than are marked.
  const quarter = (90 * setUp.captureFps) / (6 * setUp.rpm * (setUp.mark === 'line' ? 2 : 1))
  const countOf = (every: number) => Math.min(Math.floor((inView - 1) / every) + 1, setUp.mostFrames)
  const steps = [Math.floor, Math.ceil].map(whole =>
    Math.max(1, Math.min(whole(inView / setUp.mostFrames), Math.floor(quarter))),
  )
  const every = steps.reduce((best, step) =>
    countOf(step) * ((countOf(step) - 1) * step) ** 2 > countOf(best) * ((countOf(best) - 1) * best) ** 2
      ? step
      : best,
  )
  const frames = countOf(every)
  const clock = Array.from({ length: frames }, (_, i) => (every * (i - (frames - 1) / 2)) / setUp.captureFps)
  const captureError = chance.between(-0.001, 0.001)
  const scene = sceneOf(
    setUp,
    clock.map(t => t / (1 + captureError)),
    chance,
  )
  const outlines = outlinesOf(scene, setUp.clickPx, chance)
  const document: Marks = {
    schema: 'whorl.marks/1',
    capture: {
      fps: setUp.captureFps,
      relativeUncertainty: 0.001 / Math.sqrt(3),
      exposureSeconds: setUp.exposureSeconds,
      readoutSeconds: Math.max(setUp.readoutSeconds * (1 + chance.normal(0.1)), 0),
      focalLengthPx: setUp.focalLengthPx * (1 + chance.normal(0.02)),
    },
    picture: { widthPx: setUp.widthPx, heightPx: setUp.heightPx },
    ball: { diameterMetres: setUp.ballDiameterMetres },
    plausible: { maxRpm: Math.max(2 * setUp.rpm, 5000) },
    marks: scene.marks.map(({ symmetryOrder }, m) => ({ id: `m${m}`, symmetryOrder })),
    frames: clock.map((_, index) => ({
      index: index * every,
      outline: outlines[index]!,
      ...sightingsIn(scene, index, outlines[index]!, setUp.clickPx, chance),
    })),
    click: { standardUncertaintyPx: setUp.clickPx * Math.exp(chance.normal(0.1)) },
  }
  const [first, last] = [scene.frameSeconds[0]!, scene.frameSeconds.at(-1)!]
  const mean = (turnedSeconds(scene, last) - turnedSeconds(scene, first)) / (last - first)
  return { document, truthRpm: setUp.rpm * mean }
}

function sceneOf(setUp: PlanSetUp, frameSeconds: number[], chance: Chance): Scene {
  const tilt = (setUp.axisTiltDeg * Math.PI) / 180
  const lean = Math.PI / 4
  const axis: P3 = [Math.sin(tilt) * Math.cos(lean), Math.sin(tilt) * Math.sin(lean), Math.cos(tilt)]
  const near = times(axis, -1)
  const [aside] = square(axis)
  const place = spun(near, times(aside, (setUp.markFromAxisDeg * Math.PI) / 180))
  const start = chance.between(0, 2 * Math.PI)
  const isDirection = setUp.mark === 'arrow' || setUp.mark === 'line'
  const turns = setUp.mark === 'two-dots' ? [start, start + Math.PI / 2] : [start]
  return {
    focalPx: setUp.focalLengthPx,
    widthPx: setUp.widthPx,
    heightPx: setUp.heightPx,
    ballRadius: setUp.ballDiameterMetres / 2,
    start: [0, 0, setUp.distanceMetres],
    velocity: [setUp.speedMetresPerSecond, 0, 0],
    spin: times(axis, (setUp.rpm * 2 * Math.PI) / 60),
    decay: chance.normal(0.05),
    marks: turns.map(turn => ({
      place: spun(place, times(axis, turn)),
      along: isDirection ? spun(aside, times(axis, turn)) : null,
      symmetryOrder: setUp.mark === 'line' ? 2 : 1,
    })),
    frameSeconds,
    readoutSeconds: setUp.readoutSeconds,
    exposureSeconds: setUp.exposureSeconds,
    showsFrom: 0.15,
  }
}

function outlinesOf(scene: Scene, clickPx: number, chance: Chance) {
  const error = () => ({
    x: chance.normal(clickPx * Math.sqrt(2 / 3)),
    y: chance.normal(clickPx * Math.sqrt(2 / 3)),
    r: chance.normal(clickPx / Math.sqrt(3)),
  })
  const placed = [error(), error(), error()]
  const last = scene.frameSeconds.length - 1
  return scene.frameSeconds.map((_, i) => {
    const along = (2 * i) / Math.max(last, 1)
    const [a, b] = along < 1 ? [placed[0]!, placed[1]!] : [placed[1]!, placed[2]!]
    const share = along < 1 ? along : along - 1
    const of = (name: 'x' | 'y' | 'r') => (1 - share) * a[name] + share * b[name]
    const { xPx, yPx, radiusPx } = outlineIn(scene, i)
    return { xPx: xPx + of('x'), yPx: yPx + of('y'), radiusPx: Math.max(radiusPx + of('r'), 2) }
  })
}

function sightingsIn(
  scene: Scene,
  frame: number,
  outline: { xPx: number; yPx: number; radiusPx: number },
  clickPx: number,
  chance: Chance,
): Pick<Marks['frames'][number], 'seen' | 'hidden'> {
  const seen: Marks['frames'][number]['seen'] = []
  const hidden: string[] = []
  scene.marks.forEach(({ place, along }, m) => {
    const onBall = (t: number) => add(centreAt(scene, t), bodyAt(scene, place, t), scene.ballRadius)
    const read = timeOfReading(scene, frame, t => seenAt(scene, onBall(t))[1])
    const t = read + chance.between(-0.5, 0.5) * scene.exposureSeconds
    const [x, y] = seenAt(scene, onBall(t))
    if (heightOver(scene, bodyAt(scene, place, t), t) < scene.showsFrom) hidden.push(`m${m}`)
    else if (along) {
      const [a, b] = seenAt(scene, add(onBall(t), bodyAt(scene, along, t), 0.01 * scene.ballRadius))
      const radiusPx = (scene.focalPx * scene.ballRadius) / norm(centreAt(scene, t))
      const lengthRadii = Math.hypot(a - x, b - y) / (0.01 * radiusPx)
      const bearing = Math.atan2(b - y, a - x) + chance.normal(clickPx / (radiusPx * lengthRadii))
      seen.push({ mark: `m${m}`, bearingDeg: (bearing * 180) / Math.PI })
    } else {
      const [dx, dy] = [x + chance.normal(clickPx) - outline.xPx, y + chance.normal(clickPx) - outline.yPx]
      const inwards = Math.min(1, outline.radiusPx / Math.hypot(dx, dy))
      seen.push({ mark: `m${m}`, xPx: outline.xPx + inwards * dx, yPx: outline.yPx + inwards * dy })
    }
  })
  return { seen, hidden }
}
