import { digits } from '../../../components/figure-text.ts'
import { useBench } from '../state/use-bench.ts'
import { drawnAxis } from './drawn-axis.ts'

const size = 72
const radius = 25

/** The spin axis as a small drawn ball, seen as the camera sees it, and its parts where the flight is known. */
export function AxisBall() {
  const reading = useBench(state => state.live.reading)
  if (!reading?.axis || reading.rpm === null) return null
  const { axis, parts } = reading
  const drawn = drawnAxis(axis, radius)
  return (
    <section className="axis">
      <svg
        viewBox={`${-size / 2} ${-size / 2} ${size} ${size}`}
        width={size}
        height={size}
        role="img"
        aria-label={`Spin axis, ${axis.tiltDeg.toFixed(0)}° from the line of sight`}
      >
        <path className="axis-behind" d={drawn.axisBehind} />
        <circle className="axis-ball-line" r={radius} />
        <path className="axis-behind" d={drawn.equatorBehind} />
        <path className="axis-equator" d={drawn.equatorFront} />
        <path className="axis-line" d={drawn.axisFront} />
        <path className="axis-way" d="M5 0L-4 -4.5V4.5Z" transform={drawn.way} />
      </svg>
      <dl className="lines">
        <div>
          <dt className="unseen">axis</dt>
          <dd>
            <span className="figure">
              {axis.tiltDeg.toFixed(0)}°{axis.coneDeg !== undefined && ` ± ${axis.coneDeg.toFixed(0)}°`}
            </span>
            <span className="quiet"> off the line of sight</span>
          </dd>
        </div>
        {parts && (
          <>
            <Part name={parts.topspinRpm < 0 ? 'backspin' : 'topspin'} rpm={Math.abs(parts.topspinRpm)} />
            <Part name="sidespin" rpm={parts.sidespinRpm} />
            <Part name="gyro" rpm={parts.gyroRpm} />
          </>
        )}
      </dl>
    </section>
  )
}

const Part = ({ name, rpm }: { name: string; rpm: number }) => (
  <div>
    <dt>{name}</dt>
    <dd className="figure">{digits(rpm)}</dd>
  </div>
)
