import './percentile-bar.css'

/** A figure with its percentile as a short bar beneath: full is the highest of all. */
export function PercentileBar({ percentile, children }: { percentile: number; children: React.ReactNode }) {
  return (
    <span className="percentile-bar" title={`percentile ${percentile.toFixed(0)}`}>
      <span>{children}</span>
      <span className="percentile-bar-track">
        <span style={{ width: `${percentile}%` }} />
      </span>
    </span>
  )
}
