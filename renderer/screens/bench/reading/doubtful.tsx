import { goTo } from '../state/going.ts'
import { followMark } from '../state/marking.ts'
import { useBench, useBenchStore } from '../state/use-bench.ts'

/** Below this weight a mark is worth a second look. */
const doubtfulBelow = 0.8
const most = 5

/** Marks that the fit does not trust in full: how far off, how much they count, one click to look at each. */
export function Doubtful() {
  const store = useBenchStore()
  const series = useBench(state => state.live.series)
  const doubtful = series
    .flatMap(({ mark, points }) => points.map(point => ({ mark, point })))
    .filter(({ point }) => point.residualDeg !== null && point.weight < doubtfulBelow)
    .toSorted((a, b) => a.point.weight - b.point.weight)
  if (doubtful.length === 0) return null
  return (
    <section className="doubtful">
      <h2>Marks worth a second look</h2>
      <ul>
        {doubtful.slice(0, most).map(({ mark, point }) => (
          <li key={`${mark.id} ${point.frame}`}>
            <button
              type="button"
              className="doubtful-mark"
              onClick={() => {
                followMark(store, mark.id)
                goTo(store, point.frame)
              }}
            >
              frame <span className="figure">{point.frame}</span>
              {series.length > 1 && ` ${mark.id}`}, off by{' '}
              <span className="figure">{Math.abs(point.residualDeg ?? 0).toFixed(0)}°</span>, counts{' '}
              <span className="figure">
                {Math.round(point.weight * 100)}
                {'\u00a0'}%
              </span>
            </button>
          </li>
        ))}
      </ul>
      {doubtful.length > most && <p className="quiet">and {doubtful.length - most} more in the plot</p>}
    </section>
  )
}
