import type { StudyDot } from '../../../core/contract/study.ts'
import { counted } from '../../components/counted.ts'
import { digits } from '../../components/figure-text.ts'

const size = 208
const reach = size / 2 - 16

/** The largest of 1, 2, 5, 10, … (or tenths of them) that is not above the value. */
function niceBelow(value: number): number {
  const power = 10 ** Math.floor(Math.log10(value))
  return ([5, 2, 1].find(step => step * power <= value) ?? 1) * power
}

/** Where second clicks lie from the first ones, as they lie in the picture; a ring gives the scale. */
export function DifferenceDots({ dots, person }: { dots: StudyDot[]; person: string }) {
  const farthest = Math.max(...dots.map(({ dxPx, dyPx }) => Math.hypot(dxPx, dyPx)), 0.1)
  const scale = reach / farthest
  const ringPx = niceBelow(farthest)
  const centre = size / 2
  return (
    <figure className="study-dots">
      <svg
        width={size}
        height={size}
        role="img"
        aria-label={`${counted(dots.length, 'second click')} of ${person} about the first ones, at most ${digits(farthest, 1)} px away`}
      >
        <path className="study-dots-axes" d={`M8 ${centre}H${size - 8}M${centre} 8V${size - 8}`} />
        <circle className="study-dots-ring" cx={centre} cy={centre} r={ringPx * scale} />
        {dots.map(({ dxPx, dyPx, outlying }, i) => (
          <circle
            // biome-ignore lint/suspicious/noArrayIndexKey: a dot is nothing but its place.
            key={i}
            className="study-dot"
            data-outlying={outlying}
            cx={centre + dxPx * scale}
            cy={centre + dyPx * scale}
            r={3.5}
          />
        ))}
        <text className="figure" x={centre + 4} y={centre - ringPx * scale - 4}>
          {ringPx}
          {'\u00a0'}px
        </text>
      </svg>
      <table className="unseen">
        <caption>Second clicks of {person} about the first ones</caption>
        <thead>
          <tr>
            <th scope="col">To the right, px</th>
            <th scope="col">Down, px</th>
            <th scope="col">Too far off</th>
          </tr>
        </thead>
        <tbody>
          {dots.map(({ dxPx, dyPx, outlying }, i) => (
            // biome-ignore lint/suspicious/noArrayIndexKey: a dot is nothing but its place.
            <tr key={i}>
              <td>{digits(dxPx, 1)}</td>
              <td>{digits(dyPx, 1)}</td>
              <td>{outlying ? 'yes' : 'no'}</td>
            </tr>
          ))}
        </tbody>
      </table>
      <figcaption className="quiet">second clicks about the first</figcaption>
    </figure>
  )
}
