/**
 * Whether the sphere fit's wide search can miss: a grid of axes × rates × mark places, each hit clicked with
 * 1 px of error. A case is missed when a refinement that begins at the truth ends at a likelihood better by e than
 * one that begins at the best that the search has led to.
 *
 *   npx tsx tests/bench/search.ts
 */

import type { Observations } from '../../core/spin/observations.ts'
import { compete } from '../../core/spin/sphere/compete.ts'
import { expectedOf } from '../../core/spin/sphere/fit-sphere.ts'
import { type Sights, sightsOf } from '../../core/spin/sphere/sights.ts'
import { startsFromPoints } from '../../core/spin/sphere/starts.ts'
import { type Chance, chanceOf } from './simulate/random.ts'
import { type P3, spun, times } from './simulate/space.ts'

const fps = 240
const radiusPx = 40
const most = 40
const ratesRpm = [60, 400, 1100, 2000, 2900, 3700, 4300, 4900]
const framesSeen = [6, 12, 30, 60]

const spread = (count: number): P3[] =>
  Array.from({ length: count }, (_, i) => {
    const z = 1 - (2 * i + 1) / count
    const across = Math.sqrt(1 - z * z)
    return [across * Math.cos(2.4 * i), across * Math.sin(2.4 * i), z]
  })

let [cases, tooFew, missed] = [0, 0, 0]
const chance = chanceOf(11)
for (const axis of spread(16)) {
  for (const rpm of ratesRpm) {
    for (const place of spread(9)) {
      for (const frames of framesSeen) {
        const spin = times(axis, (rpm * 2 * Math.PI) / 60)
        const o = observed(spin, place, frames, chance)
        if (o.sightings.length < 5) tooFew++
        else {
          cases++
          if (isMissed(o, spin, place)) missed++
        }
      }
    }
  }
}
process.stdout.write(
  `${cases} hits searched (${tooFew} more show their mark fewer than 5 times): ${missed} missed\n`,
)

function isMissed(o: Observations, spin: P3, place: P3): boolean {
  const sights = sightsOf(o)
  const expected = expectedOf(o, sights)
  const maxRate = o.plausible.maxRateRadPerSecond
  const start = (rotation: P3, at: P3) => ({ rotation, places: [at], score: 0 })
  const found = compete(sights, startsFromPoints(sights, maxRate, most), expected, maxRate)
  const best = found[0]!.state
  const truth = start(spin, spun(place, times(spin, sights.originSeconds)))
  const both = compete(
    sights,
    [truth, start([...best.rotation] as P3, [...best.places[0]!] as P3)],
    expected,
    maxRate,
  )
  const far = ({ state }: (typeof both)[number]) => apart(sights, state.rotation, best.rotation)
  // Refined once more the best may move along its valley: it is the one that is nearest to where it was.
  const again = both.toSorted((a, b) => far(a) - far(b))[0]!
  return again.logLikelihood < -1
}

/** By how much two rotations turn the ball otherwise in half of the hit, radians. */
function apart({ spanSeconds }: Sights, a: readonly number[], b: readonly number[]): number {
  return (Math.hypot(...a.map((x, i) => x - b[i]!)) * spanSeconds) / 2
}

function observed(spin: P3, place: P3, frames: number, { normal }: Chance): Observations {
  const o: Observations = {
    frames: Array.from({ length: frames }, (_, index) => ({
      index,
      timeSeconds: index / fps,
      outline: { xPx: 480, yPx: 270, radiusPx },
    })),
    marks: [{ id: 'dot', symmetryOrder: 1 }],
    sightings: [],
    hidden: [],
    capture: {
      fps,
      relativeUncertainty: null,
      exposureSeconds: 0.0001,
      readoutSeconds: 0,
      readoutUncertaintySeconds: null,
      focalLengthPx: 1e6,
      tickSeconds: null,
    },
    picture: { widthPx: 960, heightPx: 540 },
    ballDiameterMetres: 0.074,
    plausible: { maxRateRadPerSecond: (5000 * 2 * Math.PI) / 60, sense: null },
    clickPx: 1,
  }
  for (let frame = 0; frame < frames; frame++) {
    const u = spun(place, times(spin, frame / fps))
    if (u[2] > -0.15) o.hidden.push({ frame, mark: 0 })
    else {
      const px = (x: number) => radiusPx * x + normal(1)
      const [xPx, yPx] = [480 + px(u[0]), 270 + px(u[1])]
      o.sightings.push({ kind: 'point', frame, mark: 0, xPx, yPx, smearArcRad: null })
    }
  }
  return o
}
