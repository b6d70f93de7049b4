import type { BenchMark, HitMarks } from '../contract/bench.ts'
import { outlineAt } from '../marking/outline-at.ts'
import type { Estimate } from '../spin/estimate.ts'
import type { Observations } from '../spin/observations.ts'
import { degOfRad } from '../units/angle.ts'
import { bearingOf } from './bearing-of.ts'
import { type Line, lineNear, type Series, type SeriesPoint } from './series.ts'

/** A hit's marks, and real times by frame of the clip. */
export type MarkedHit = { marks: HitMarks; timesSeconds: readonly number[] }
type Fit = { observations: Observations; estimate: Estimate }

/**
 * Each mark's sightings in the hit as points of the plot. With a fit they lie where the fit's line and
 * what it leaves over put them: for the bearing method that is the bearing, unwrapped; for the sphere it
 * is the angle turned about the axis, in which any ball turns along a straight line.
 */
export function seriesOf(source: MarkedHit, fit: Fit | null): Series[] {
  return source.marks.marks.map((mark, index) => {
    const line = fit && lineOf(source, fit, index)
    return {
      mark,
      line,
      points: line && fit ? fittedPoints(source, fit, index, line) : rawPoints(source, mark),
      hiddenFrames: inHit(source)
        .filter(seen => seen.mark === mark.id && seen.kind === 'hidden')
        .map(seen => seen.frame),
    }
  })
}

function inHit({ marks }: MarkedHit) {
  const { fromFrame, toFrame } = marks.window
  return marks.sightings.filter(seen => seen.frame >= fromFrame && seen.frame <= toFrame)
}

/** Before there is a fit: the bearings as they are, 0 to 360. */
function rawPoints(source: MarkedHit, mark: BenchMark): SeriesPoint[] {
  return inHit(source).flatMap(seen => {
    const outline = outlineAt(source.marks, seen.frame, source.timesSeconds)
    const deg = seen.mark === mark.id ? bearingOf(seen, outline) : null
    if (deg === null) return []
    const timeSeconds = source.timesSeconds[seen.frame] ?? 0
    return [{ frame: seen.frame, timeSeconds, deg, residualDeg: null, residualPx: null, weight: 1 }]
  })
}

/** The line starts at the model's bearing of the mark's first sighting; on the sphere all marks start at 0. */
function lineOf(source: MarkedHit, { observations, estimate }: Fit, mark: number): Line | null {
  const first = observations.sightings.find(seen => seen.mark === mark)
  if (!first) return null
  const degPerSecond = degOfRad(estimate.rateRadPerSecond)
  const firstSeconds = secondsOf(source, observations, first.frame)
  if (estimate.method === 'sphere') {
    const start = secondsOf(source, observations, 0)
    return { startDeg: -degPerSecond * start, degPerSecond }
  }
  const modelled = estimate.modelled.find(each => each.mark === mark && each.frame === first.frame)
  const startDeg = degOfRad(modelled?.bearingRad ?? 0)
  return lineNear({ startDeg: startDeg - degPerSecond * firstSeconds, degPerSecond }, firstSeconds, 180, 360)
}

function fittedPoints(
  source: MarkedHit,
  { observations, estimate }: Fit,
  mark: number,
  line: Line,
): SeriesPoint[] {
  return observations.sightings.flatMap((seen, index) => {
    const fitted = estimate.sightings[index]
    if (seen.mark !== mark || !fitted) return []
    const timeSeconds = secondsOf(source, observations, seen.frame)
    const residualDeg = degOfRad(fitted.phaseResidualRad)
    return [
      {
        frame: observations.frames[seen.frame]!.index,
        timeSeconds,
        deg: line.startDeg + line.degPerSecond * timeSeconds + residualDeg,
        residualDeg,
        residualPx: fitted.residualPx,
        weight: fitted.weight,
      },
    ]
  })
}

/** The frame's place on the bench's own time axis; the fit may have used the even clock behind it. */
const secondsOf = ({ timesSeconds }: MarkedHit, observations: Observations, frame: number): number =>
  timesSeconds[observations.frames[frame]!.index] ?? observations.frames[frame]!.timeSeconds
