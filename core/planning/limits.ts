import type { Plan, PlanSetUp } from '../contract/plan.ts'
import type { CeilingLimit, Reading } from '../contract/reading.ts'
import { rpm } from './advice.ts'
import { halfWidthOf } from './expected-reading.ts'
import type { InView } from './in-view.ts'

/** A ball that smears over this part of itself has no outline left to click: common practice, no source. */
const lostOutline = 1 / 3
/** From here on a reading is near its ceiling, as in a reading's own flag. */
const nearCeiling = 0.8

const ceilingWords: Record<CeilingLimit, string> = {
  sense: 'Above it the camera cannot tell which way the ball turns',
  seeing: 'Above it the mark is not seen in two frames running',
  smear: 'Above it the mark smears too far to be clicked',
  counting: 'Above it counting alone is coarser than the band you want',
}

/** What limits a set-up, in one sentence or two with numbers; the gravest first. */
export function limitsOf(
  setUp: PlanSetUp,
  inView: InView,
  ceilings: Plan['ceilings'],
  expected: Reading,
): string {
  if (inView.framesInView === 0)
    return `The ball is ${inView.ballDiameterPx.toFixed(0)} px across and does not fit into ${setUp.widthPx} × ${setUp.heightPx} px.`
  if (inView.framesInView < 3)
    return `The ball crosses the picture in ${inView.framesInView === 1 ? 'one frame' : 'two frames'}: too few to see it turn.`
  if (inView.flightSmearPx > lostOutline * inView.ballDiameterPx)
    return `The flight smears the ball over ${inView.flightSmearPx.toFixed(0)} px, and it is ${inView.ballDiameterPx.toFixed(0)} px across: its outline is lost.`
  // Counting is what the fit is there to better: it warns beside the figure, it does not limit the hit.
  const ceiling = ceilings.find(one => one.limit !== 'counting')
  if (ceiling && setUp.rpm > nearCeiling * ceiling.rpm)
    return `The ceiling is ${ceiling.rpm.toFixed(0)} rpm and ${setUp.rpm.toFixed(0)} rpm are expected, ${((100 * setUp.rpm) / ceiling.rpm).toFixed(0)} % of it. ${ceilingWords[ceiling.limit]}.`
  const half = halfWidthOf(expected)
  if (half === null || (expected.flag !== 'clear' && expected.reasons[0]))
    return expected.reasons[0] ?? 'No figure can be had.'
  const lines = expected.budget.toSorted((a, b) => b.standardUncertaintyRpm - a.standardUncertaintyRpm)
  const whole = lines.reduce((sum, line) => sum + line.standardUncertaintyRpm ** 2, 0)
  const share = (100 * lines[0]!.standardUncertaintyRpm ** 2) / whole
  return `Nothing stands in the way. The band is ±${rpm(half)} rpm; most of it, ${share.toFixed(0)} % of its square, is ${lines[0]!.source}.`
}
