import { describe, expect, it } from 'vitest'
import { ballView } from '../../../../core/geometry/ball-view.ts'
import { outlineOfSphere } from '../../../../core/geometry/outline-of-sphere.ts'
import { Motion } from '../../../../core/spin/sphere/motion.ts'
import { SightedDirection } from '../../../../core/spin/sphere/see-direction.ts'
import { noSharedErrors, placeError } from '../../../../core/spin/sphere/shared.ts'
import type { DirectionSight } from '../../../../core/spin/sphere/sights.ts'
import { add, norm, type P3, spun, square, times } from '../../../bench/simulate/space.ts'

const [focalPx, widthPx, heightPx] = [1000, 1280, 720]
const camera = { focalPx, xPx: widthPx / 2, yPx: heightPx / 2 }

/** A ball near the camera and far off its middle: perspective at its place is worth degrees. */
const centre: P3 = [4, -2.5, 12]
const spin: P3 = [60, -90, 110]
const place: P3 = [0.36, 0.48, -0.8]
const run = square(place)[0]

const pixelOf = (p: P3): [number, number] => [
  camera.xPx + (focalPx * p[0]) / p[2],
  camera.yPx + (focalPx * p[1]) / p[2],
]

/**
 * The bearing of a short line, from the pixels of its two ends through the pinhole, in the row where its middle is
 * read: row time and place are solved by going round.
 */
function bearingByTwoPoints(frameSeconds: number, readoutSeconds: number): number {
  const at = (v: P3, t: number) => spun(v, times(spin, t))
  let t = frameSeconds
  for (let round = 0; round < 50; round++) {
    t = frameSeconds + (readoutSeconds * pixelOf(add(centre, at(place, t)))[1]) / heightPx
  }
  const [from, to] = [-1e-5, 1e-5].map(by => pixelOf(add(add(centre, at(place, t)), at(run, t), by)))
  return Math.atan2(to![1] - from![1], to![0] - from![0])
}

function sightAt(frameSeconds: number, readoutSeconds: number): DirectionSight {
  const distanceRadii = norm(centre)
  const outline = outlineOfSphere({ toBall: times(centre, 1 / distanceRadii), distanceRadii }, camera)
  const view = ballView(outline, camera)
  const rowShare = outline.yPx / heightPx
  return {
    sighting: 0,
    frame: 0,
    mark: 0,
    timeSeconds: frameSeconds + readoutSeconds * rowShare,
    view,
    steeperView: view,
    rowShare,
    bearingRad: 0,
    radiusPx: outline.radiusPx,
    radiusShare: outline.radiusPx / heightPx,
  }
}

/** The bearing that the model gives a body-fixed arrow, judged at a place of the ball. */
function bearingByModel(arrow: P3, judgedAt: P3, frameSeconds: number, readoutSeconds: number): number {
  const motion = new Motion([arrow])
  motion.set(Float64Array.of(...spin, 0, 0))
  const shared = [...noSharedErrors(1)]
  judgedAt.forEach((x, k) => {
    shared[placeError(0) + k] = x
  })
  const sighted = new SightedDirection(1)
  sighted.see(sightAt(frameSeconds, readoutSeconds), motion, shared, readoutSeconds, 0)
  return sighted.bearingRad
}

const worstOf = (judgedAt: P3, readoutSeconds: number): number =>
  Math.max(
    ...Array.from({ length: 24 }, (_, i) => {
      const apart =
        bearingByModel(run, judgedAt, i / 240, readoutSeconds) - bearingByTwoPoints(i / 240, readoutSeconds)
      return Math.abs(Math.atan2(Math.sin(apart), Math.cos(apart)))
    }),
  )

describe('a line on the ball', () => {
  it('shows the bearing that the pixels of its two ends have, wherever on the ball it is', () => {
    expect(worstOf(place, 0)).toBeLessThan(1e-6)
  })

  it('is read in its own row, later or earlier than the middle of the ball', () => {
    const readoutSeconds = 0.003
    // What is left is of the second order: the row is reckoned from where the place is when the middle is read.
    const turnedRad = (norm(spin) * readoutSeconds * sightAt(0, 0).radiusPx) / heightPx
    expect(worstOf(place, readoutSeconds)).toBeLessThan(5 * turnedRad ** 2)
    expect(worstOf([0, 0, 0], readoutSeconds)).toBeGreaterThan(15 * turnedRad ** 2)
  })

  it('would be off by degrees if it were seen as from the middle of the ball', () => {
    expect(worstOf([0, 0, 0], 0)).toBeGreaterThan(0.05)
  })

  it('that is the bearing of a mark about the middle of the ball is the same for every place along it', () => {
    const about = (share: number) => bearingByModel(place, times(place, share), 0.01, 0)
    expect(about(1)).toBeCloseTo(about(0), 12)
    expect(about(-0.3)).toBeCloseTo(about(0), 12)
  })
})
