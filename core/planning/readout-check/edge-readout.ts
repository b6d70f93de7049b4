import type { CheckEvidence } from '../../contract/checks.ts'
import { straightLine } from '../../numerics/straight-line.ts'
import type { Luma } from '../../vision/luma.ts'
import { thinned } from './late-rows.ts'
import { noReadout, type ReadoutFound, readoutFound } from './readout-found.ts'
import { type SweptEdge, sweptEdge } from './swept-edge.ts'

const fewestPlaces = 12
/** Speeds must differ by this part of their own size, so that the edge's own slant is told from the readout's. */
const leastSpread = 0.5

const howTo =
  'Move an upright, straight, plain edge (a card, a ruler) sideways to and fro, as fast as you can.'

/** Follows an upright edge that is moved sideways, to and fro, through a clip's pictures, one after the other. */
export class EdgeReadout {
  readonly #captureFps: number
  #last: Luma | null = null
  readonly #tracks: Record<1 | -1, (SweptEdge | null)[]> = { 1: [], [-1]: [] }

  constructor(captureFps: number) {
    this.#captureFps = captureFps
  }

  see(picture: Luma): void {
    const last = this.#last
    if (last) for (const sign of [1, -1] as const) this.#tracks[sign].push(sweptEdge(last, picture, sign))
    this.#last = picture
  }

  /**
   * A row at y is seen readout · y/H late, so an edge that moves at v px a frame leans by v · readout · fps over
   * the picture's height, beside its own slant: the readout is the slope of slant against speed.
   */
  found(): ReadoutFound {
    const places = Object.values(this.#tracks).flatMap(placesIn)
    if (places.length < fewestPlaces)
      return noReadout(
        `An edge that moves is seen in ${places.length} places; ${fewestPlaces} at least are needed.`,
        howTo,
      )
    const speeds = places.map(place => place.speedPx)
    const line = straightLine(
      speeds,
      places.map(place => place.slantPx),
    )
    const size = Math.sqrt(speeds.reduce((sum, v) => sum + v * v, 0) / speeds.length)
    if (!line || 1 / Math.sqrt(line.varianceSlope) < leastSpread * size * Math.sqrt(places.length))
      return noReadout(
        'The edge moves one way at one speed: its own slant looks like a readout’s.',
        'Move it to and fro within the clip.',
      )
    const residuals = places.map(place => place.slantPx - line.intercept - line.slope * place.speedPx)
    const variance = (line.weightedSumOfSquares / (places.length - 2)) * hangTogether(residuals)
    const fps = this.#captureFps
    return readoutFound(
      line.slope / fps,
      Math.sqrt(variance * line.varianceSlope) / fps,
      [
        `${places.length} places of the edge, at up to ${Math.max(...speeds.map(Math.abs)).toFixed(1)} px a frame; its own slant is ${line.intercept.toFixed(1)} px.`,
      ],
      leaning(places, line),
      howTo,
    )
  }
}

type Place = { speedPx: number; slantPx: number }

/** The edge's lean against its speed: the readout is the slope. */
function leaning(places: readonly Place[], line: { intercept: number; slope: number }): CheckEvidence {
  const speeds = places.map(place => place.speedPx)
  const end = (speed: number): [number, number] => [speed, line.intercept + line.slope * speed]
  return {
    points: thinned(places).map(({ speedPx, slantPx }) => [speedPx, slantPx]),
    joined: false,
    xWords: 'speed of the edge, px a frame',
    yWords: 'lean of the edge over the picture’s height, px',
    lines: [],
    fit: [end(Math.min(...speeds)), end(Math.max(...speeds))],
  }
}

/** The edge's slant and speed (px a frame) where it is seen three times running. */
function placesIn(track: readonly (SweptEdge | null)[]): Place[] {
  return track.flatMap((edge, i) => {
    const [before, after] = [track[i - 1], track[i + 1]]
    if (!edge || !before || !after) return []
    // At a turning point the speed changes within the sweep, and what is seen of it is thin.
    const [a, b] = [edge.atPx - before.atPx, after.atPx - edge.atPx]
    return a * b > 0 && Math.max(a / b, b / a) < 2 ? [{ speedPx: (a + b) / 2, slantPx: edge.slantPx }] : []
  })
}

/** How much larger a variance is because each residual resembles the one before (first-order autocorrelation). */
function hangTogether(residuals: readonly number[]): number {
  const whole = residuals.reduce((sum, r) => sum + r * r, 0)
  const along = residuals.slice(1).reduce((sum, r, i) => sum + r * residuals[i]!, 0)
  const share = whole > 0 ? Math.min(Math.max(along / whole, 0), 0.95) : 0
  return (1 + share) / (1 - share)
}
