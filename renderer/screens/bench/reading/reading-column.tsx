import { isToSettle } from '../state/seen.ts'
import { useBench } from '../state/use-bench.ts'
import { AxisBall } from './axis-ball.tsx'
import { BandBudget } from './band-budget.tsx'
import { Candidates } from './candidates.tsx'
import { Decide } from './decide.tsx'
import { Doubtful } from './doubtful.tsx'
import { Headline } from './headline.tsx'
import { LaterReasons } from './later-reasons.tsx'
import { RateWanted } from './rate-wanted.tsx'
import { Turning } from './turning.tsx'

/** The right of the bench: the one figure to read, and everything it rests on. */
export function ReadingColumn() {
  const captureFps = useBench(state => state.captureFps)
  // Which rate it was is then the one thing to say.
  const isOpen = useBench(isToSettle)
  return (
    <aside className="reading" aria-label="Reading">
      {captureFps === null ? <RateWanted /> : <Headline />}
      <div className="reading-evidence">
        {isOpen && <Candidates />}
        <LaterReasons />
        <Turning />
        <AxisBall />
        <Doubtful />
        {!isOpen && <Candidates />}
        <BandBudget />
      </div>
      <Decide />
    </aside>
  )
}
