import type { Plan } from '../../../core/contract/plan.ts'
import type { CeilingLimit } from '../../../core/contract/reading.ts'
import { stopsInWords } from '../../../core/planning/stops.ts'
import { digits } from '../../components/figure-text.ts'

const limitWords: Record<CeilingLimit, string> = {
  sense: 'which way it turns',
  seeing: 'seen twice running',
  smear: 'smear',
  counting: 'counting alone',
}
const few = (value: number) => digits(value, value < 9.95 ? 1 : 0)

/** The plan's figures in two quiet lists: what the picture holds, and the ceilings with their headroom. */
export function PlanFigures({ plan }: { plan: Plan }) {
  const { hits, halfWidthRpm, reason } = plan.expected.hitsForMeanHalfWidth
  const counting = plan.expected.countingHalfWidthRpm
  const facts: [string, string][] = [
    ['Ball', `${few(plan.ballDiameterPx)} px across`],
    ['In view', `${plan.framesInView} frames, ${few(plan.turnsInView)} turns`],
    ['Marked', `${plan.framesMarked} frames${plan.markedEvery > 1 ? `, one in ${plan.markedEvery}` : ''}`],
    [
      'Turns',
      `${few(plan.rotationPerFrameDeg)}° a frame, ${digits(plan.framesPerRevolution, 2)} frames a turn`,
    ],
    ['Smear', `${few(plan.smearDeg)}°, ${few(plan.smearPx)} px at the rim`],
    ['Flight', `${few(plan.flightSmearPx)} px while the shutter is open`],
    ['Mark shows', `${digits(100 * plan.visiblePart)} % of a turn`],
    ['Counting alone', counting === null ? 'no whole turn in view' : `±${few(counting)} rpm`],
    ['Paddle’s mean', hits === null ? reason : `±${halfWidthRpm} rpm after ${hits} hits`],
    ...(plan.lightStops === null
      ? []
      : ([['Light', `${stopsInWords(plan.lightStops)} than now`]] as [string, string][])),
  ]
  return (
    <div className="foreseen-figures">
      <dl>
        {facts.map(([word, figure]) => (
          <div key={word}>
            <dt>{word}</dt>
            <dd className="figure">{figure}</dd>
          </div>
        ))}
      </dl>
      <table>
        <caption>Ceilings</caption>
        <tbody>
          {plan.ceilings.map(({ rpm, limit, headroom }) => (
            <tr key={limit} data-passed={headroom < 1}>
              <th scope="row">{limitWords[limit]}</th>
              <td className="figure">
                {digits(rpm)}
                <span className="unit"> rpm</span>
              </td>
              <td className="figure">
                {digits(headroom, 1)}
                <span className="unit"> × the spin</span>
              </td>
            </tr>
          ))}
        </tbody>
      </table>
    </div>
  )
}
