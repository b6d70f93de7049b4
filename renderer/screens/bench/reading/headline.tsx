import { halfWidthOf, rpmWithHalfWidth } from '../../../components/figure-text.ts'
import { FlagMark } from '../../../components/flag-mark.tsx'
import type { LiveReading } from '../state/live-reading.ts'
import { useBench } from '../state/use-bench.ts'
import { headlineReasons } from './reasons-shown.ts'

/** The reading itself: rpm large, its band, its flag with the reason in words. */
export function Headline() {
  const live = useBench(state => state.live)
  const verdict = useBench(state => state.marks.verdict)
  const isSurface = useBench(state => state.marks.readFrom === 'surface')
  const { reading } = live
  if (!reading || reading.rpm === null || !reading.band)
    return (
      <div className="headline" data-state="none">
        <p className="headline-figure figure" aria-hidden="true">
          —
        </p>
        <div role="status">
          {reasonsWithout(live, isSurface).map(reason => (
            <p key={reason}>{reason}</p>
          ))}
        </div>
      </div>
    )
  const [rpm, ...plusMinus] = rpmWithHalfWidth(reading.rpm, halfWidthOf(reading.band)).split('\u00a0')
  return (
    <div className="headline" data-state={verdict.state}>
      <p className="headline-figure figure" aria-live="polite">
        {rpm}
        <span className="headline-band">
          {plusMinus.join('\u00a0')}
          <span className="unit">{'\u00a0rpm'}</span>
        </span>
      </p>
      <p className="headline-flag">
        <FlagMark flag={reading.flag} />
        {reading.sense && <span className="quiet">{reading.sense}</span>}
      </p>
      {headlineReasons(reading).map(reason => (
        <p key={reason} className="headline-reason">
          {reason}
        </p>
      ))}
    </div>
  )
}

/** Before there is a figure: what it waits for. */
function reasonsWithout(live: LiveReading, isSurface: boolean): string[] {
  if (live.reason) return [live.reason]
  if (isSurface && live.reading) return live.reading.reasons
  if (live.series.every(series => series.points.length === 0))
    return ['It stands here from the second mark on.']
  return live.reading?.reasons ?? []
}
