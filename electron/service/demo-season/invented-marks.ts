import type { HitMarks, PlacedOutline, PlacedSighting } from '../../../core/contract/bench.ts'
import type { SessionDetails } from '../../../core/contract/workspace.ts'
import { rotationFromVector, turned } from '../../../core/geometry/rotation.ts'
import { dot, scaled, sum, unit, type Vector } from '../../../core/geometry/vector.ts'
import { radPerSecondOfRpm } from '../../../core/units/rate.ts'
import type { Chance } from './chance.ts'

export const picture = { widthPx: 960, heightPx: 540 }

export type InventedHit = {
  rpm: number
  frames: number
  fromFrame: number
  /** Real time from frame to frame. */
  frameSeconds: number
  camera: Pick<SessionDetails, 'camera' | 'ball'>
}

/** A mark is lost to the eye where the skin turns this far away: the cosine of the angle. */
const rim = 0.15

/**
 * The marks that a person would have clicked on a ball that flies across the picture and turns: two spots on
 * a sphere, seen through a pinhole, with the scatter of a click. The axis leans by up to 25° from the camera.
 */
export function inventMarks(hit: InventedHit, chance: Chance): HitMarks {
  const { camera, ball } = hit.camera
  const radius = ball.diameterMetres / 2
  const focalPx = camera.focalLengthPx!
  const clickPx = 0.8
  const [lean, tilt] = [chance.between(0, 2 * Math.PI), chance.between(0.05, 0.44)]
  const axis: Vector = [Math.sin(tilt) * Math.cos(lean), Math.sin(tilt) * Math.sin(lean), Math.cos(tilt)]
  const spin = scaled(axis, radPerSecondOfRpm(hit.rpm))
  const start: Vector = [-0.36, chance.between(-0.06, 0.06), chance.between(1.1, 1.25)]
  const velocity: Vector = [chance.between(12.5, 14.5), chance.between(-1.6, 0.4), chance.between(-0.4, 0.4)]
  const spots = ['logo', 'dot'].map((id, i) => ({ id, at: spotAt(2 * i + chance.between(0, 1), chance) }))
  const outlines: PlacedOutline[] = []
  const sightings: PlacedSighting[] = []
  const shown = (p: Vector) => ({
    xPx: picture.widthPx / 2 + (focalPx * p[0]) / p[2] + chance.normal(clickPx),
    yPx: picture.heightPx / 2 + (focalPx * p[1]) / p[2] + chance.normal(clickPx),
  })
  for (let i = 0; i < hit.frames; i++) {
    const [frame, seconds] = [hit.fromFrame + i, i * hit.frameSeconds]
    const centre = sum(start, scaled(velocity, seconds))
    const radiusPx = (focalPx * radius) / Math.sqrt(dot(centre, centre) - radius ** 2) + chance.normal(0.3)
    outlines.push({ frame, ...shown(centre), radiusPx })
    const turn = rotationFromVector(scaled(spin, seconds))
    for (const { id: mark, at } of spots) {
      const out = turned(turn, at)
      const facing = -dot(out, unit(centre))
      if (facing < rim) sightings.push({ kind: 'hidden', frame, mark })
      else sightings.push({ kind: 'point', frame, mark, ...shown(sum(centre, scaled(out, radius))) })
    }
  }
  return {
    window: { fromFrame: hit.fromFrame, toFrame: hit.fromFrame + hit.frames - 1 },
    marks: spots.map(({ id }) => ({ id, kind: 'point', symmetryOrder: 1 })),
    outlines,
    sightings,
    sense: null,
    settled: null,
    verdict: { state: 'open', reason: '' },
  }
}

/** On the side of the ball that faces the camera, towards a bearing. */
function spotAt(bearing: number, chance: Chance): Vector {
  const out = chance.between(0.45, 0.65)
  return [out * Math.cos(bearing), out * Math.sin(bearing), -Math.sqrt(1 - out ** 2)]
}
