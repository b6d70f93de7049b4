import type { Reading } from '../../../core/contract/reading.ts'
import { BudgetBars } from '../../components/budget-bars.tsx'
import { Fact } from '../../components/fact.tsx'
import { digits } from '../../components/figure-text.ts'
import { ceilingWords, countedWords, turningWords } from '../../components/reading-words.ts'

/** What a reading rests on: how far the ball turns a frame, what counting says, what else fits, what makes the band. */
export function Evidence({ reading }: { reading: Reading }) {
  const { band, counted, ceiling, candidates, budget } = reading
  const turning = turningWords(reading)
  return (
    <>
      <section>
        <h3>Evidence</h3>
        <dl className="evidence">
          {turning && <Fact word="Turns">{turning}</Fact>}
          {band && (
            <Fact word={`Band, ${Math.round(band.level * 100)} %`}>
              {digits(band.lowRpm)} to {digits(band.highRpm)} rpm
            </Fact>
          )}
          {counted && <Fact word="Counting alone">{countedWords(counted)} rpm</Fact>}
          {ceiling && (
            <Fact word="Ceiling">
              {digits(ceiling.rpm)} rpm: {ceilingWords(ceiling)}
            </Fact>
          )}
        </dl>
      </section>
      {candidates.length > 0 && (
        <section>
          <h3>Candidates</h3>
          <ul className="candidates">
            {candidates.map(({ rpm, sense, support, plausible }) => (
              <li key={`${rpm} ${sense}`} data-plausible={plausible}>
                <span className="figure">{digits(rpm)}</span>
                <span>{sense ?? 'either way'}</span>
                <span className="candidates-support">
                  <span style={{ width: `${100 * support}%` }} />
                </span>
                <span className="quiet candidates-fit">{plausible ? digits(support, 2) : 'too fast'}</span>
              </li>
            ))}
          </ul>
        </section>
      )}
      {budget.length > 0 && (
        <section>
          <h3>What makes the band</h3>
          <BudgetBars budget={budget} />
        </section>
      )}
    </>
  )
}
