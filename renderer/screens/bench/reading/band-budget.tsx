import { BudgetBars } from '../../../components/budget-bars.tsx'
import { useBench } from '../state/use-bench.ts'

/** What the band of the reading at hand is made of. */
export function BandBudget() {
  const reading = useBench(state => state.live.reading)
  if (!reading || reading.rpm === null || reading.budget.length === 0) return null
  return (
    <section>
      <h2>What makes the band</h2>
      <BudgetBars budget={reading.budget} />
    </section>
  )
}
