import { scaled, type Vector } from '../../geometry/vector.ts'
import type { Sight } from './sights.ts'

/**
 * Holes are seen into and lit on their edges, so that a place of the pattern seems to run ahead or lag behind as it
 * crosses the disc. That comes again with every turn: a wave of this amplitude, its beginning by chance. Chosen so
 * that the band held the truth on rendered clips of less than a turn; the clips held apart were not looked at.
 */
export const waveAmplitudeRad = 0.06

/** How much of a phase error that comes again with every turn the rate takes for its own, rad/s a radian of its amplitude. */
export function wavePassed(sights: readonly Sight[], rate: number, gains: readonly number[]): number {
  const along = (wave: (phase: number) => number) =>
    sights.reduce((sum, { timeSeconds }, i) => sum + gains[i]! * wave(rate * timeSeconds), 0)
  return Math.hypot(along(Math.cos), along(Math.sin))
}

/** The pattern's waves, of their usual size, as turns of the frames (view axes): along each way, as cosine and as sine. */
export function wavesOf(sights: readonly Sight[], rotation: Vector): Vector[][] {
  const rate = Math.hypot(...rotation)
  const size = waveAmplitudeRad / Math.SQRT2
  const ways: Vector[] = [
    [1, 0, 0],
    [0, 1, 0],
    [0, 0, 1],
  ]
  return [Math.cos, Math.sin].flatMap(wave =>
    ways.map(way => sights.map(({ timeSeconds }) => scaled(way, size * wave(rate * timeSeconds)))),
  )
}
