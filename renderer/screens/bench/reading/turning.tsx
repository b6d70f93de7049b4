import { digits } from '../../../components/figure-text.ts'
import { ceilingWords, countedWords, turningWords } from '../../../components/reading-words.ts'
import { useBench } from '../state/use-bench.ts'

/** How the ball turns under this camera, what counting alone would say, and where the camera's ceiling lies. */
export function Turning() {
  const reading = useBench(state => state.live.reading)
  if (!reading || reading.rpm === null) return null
  const turning = turningWords(reading)
  return (
    <dl className="lines">
      {turning && (
        <div>
          <dt>turns</dt>
          <dd className="figure">{turning}</dd>
        </div>
      )}
      {reading.counted && (
        <div>
          <dt>counting alone</dt>
          <dd className="figure">{countedWords(reading.counted)}</dd>
        </div>
      )}
      {reading.ceiling && (
        <div>
          <dt>ceiling</dt>
          <dd>
            <span className="figure">{digits(reading.ceiling.rpm)}</span>
            <span className="quiet">, {ceilingWords(reading.ceiling)}</span>
          </dd>
        </div>
      )}
    </dl>
  )
}
