import type { Series } from '../../../../core/picture/series.ts'

/** The plots' points as a table for ears. */
export function PointTable({ series, name }: { series: Series[]; name: string }) {
  return (
    <table className="unseen">
      <caption>{name}, with what the fit leaves over and how much each mark counts</caption>
      <thead>
        <tr>
          <th scope="col">Mark</th>
          <th scope="col">Frame</th>
          <th scope="col">Time, ms</th>
          <th scope="col">Angle, °</th>
          <th scope="col">Off by, °</th>
          <th scope="col">Counts, %</th>
        </tr>
      </thead>
      <tbody>
        {series.flatMap(({ mark, points, hiddenFrames }) => [
          ...points.map(point => (
            <tr key={`${mark.id} ${point.frame}`}>
              <th scope="row">{mark.id}</th>
              <td>{point.frame}</td>
              <td>{(point.timeSeconds * 1000).toFixed(1)}</td>
              <td>{point.deg.toFixed(1)}</td>
              <td>{point.residualDeg?.toFixed(1) ?? ''}</td>
              <td>{Math.round(point.weight * 100)}</td>
            </tr>
          )),
          ...hiddenFrames.map(frame => (
            <tr key={`${mark.id} ${frame} hidden`}>
              <th scope="row">{mark.id}</th>
              <td>{frame}</td>
              <td colSpan={4}>hidden</td>
            </tr>
          )),
        ])}
      </tbody>
    </table>
  )
}
