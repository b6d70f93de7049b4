import type { PaddlePage } from '../../../core/contract/standings.ts'
import { PercentileBar } from '../../components/percentile-bar.tsx'

/** What was measured elsewhere, each figure with its percentile; a set-up's own value where it has one. */
export function OtherFigures({ page: { columns, setUps } }: { page: PaddlePage }) {
  const row = setUps.find(setUp => setUp.row !== null)?.row
  const known = columns.flatMap((column, i) => {
    const metric = row?.metrics[i]
    return metric ? [{ ...column, ...metric }] : []
  })
  if (known.length === 0) return null
  return (
    <dl className="other-figures" aria-label="Measured elsewhere">
      {known.map(({ name, unit, value, percentile }) => (
        <div key={name}>
          <dt className="quiet">{name}</dt>
          <dd>
            {typeof value === 'string' ? (
              value
            ) : (
              <PercentileBar percentile={percentile ?? 0}>
                <span className="figure">{String(value).replace('-', '\u2212')}</span>
                <span className="unit"> {unit}</span>
              </PercentileBar>
            )}
          </dd>
        </div>
      ))}
    </dl>
  )
}
