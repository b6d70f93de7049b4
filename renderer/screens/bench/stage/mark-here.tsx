import { bearingOf } from '../../../../core/picture/bearing-of.ts'
import { digits } from '../../../components/figure-text.ts'
import { followed, outlineOf, sightingOf } from '../state/seen.ts'
import { useBench } from '../state/use-bench.ts'

/** The followed mark in this frame: where it is, how far off the fit, and how much it counts. */
export function MarkHere() {
  const words = useBench(state => {
    const mark = followed(state)
    const seen = mark && sightingOf(state, state.frame, mark.id)
    if (!mark || !seen) return null
    const bearing = bearingOf(seen, outlineOf(state, state.frame))
    if (bearing === null) return `${mark.id} hidden`
    const point = state.live.series
      .find(series => series.mark.id === mark.id)
      ?.points.find(each => each.frame === state.frame)
    const off = point?.residualDeg
    const fit =
      off === null || off === undefined
        ? ''
        : `, off by ${digits(off, 1)}°, counts ${Math.round((point?.weight ?? 1) * 100)}\u00a0%`
    return `${mark.id} at ${digits(bearing, 1)}°${fit}`
  })
  return <p className="mark-here">{words}</p>
}
