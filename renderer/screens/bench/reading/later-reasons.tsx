import { useBench } from '../state/use-bench.ts'
import { laterReasons } from './reasons-shown.ts'

/** What is to be said of an ambiguous reading beside why it is. */
export function LaterReasons() {
  const reading = useBench(state => state.live.reading)
  const reasons = reading?.rpm == null ? [] : laterReasons(reading)
  if (reasons.length === 0) return null
  return (
    <div>
      {reasons.map(reason => (
        <p key={reason}>{reason}</p>
      ))}
    </div>
  )
}
