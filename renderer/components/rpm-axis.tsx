import './rpm-axis.css'
import { digits } from './figure-text.ts'
import { linesOf, percentOn, type RpmScale } from './rpm-scale.ts'

/** The figures of the rpm scale that a screen's bars share. */
export function RpmAxis({ scale }: { scale: RpmScale }) {
  return (
    <span className="rpm-axis figure" aria-hidden="true">
      {linesOf(scale).map(line => (
        <span key={line} style={{ left: `${percentOn(scale, line)}%` }}>
          {digits(line)}
        </span>
      ))}
    </span>
  )
}
