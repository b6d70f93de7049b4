import '../../components/aside-screen.css'
import './plan.css'
import { digits } from '../../components/figure-text.ts'
import { FlagMark } from '../../components/flag-mark.tsx'
import { useAnswer } from '../../state/answers.ts'
import { hrefOf } from '../../state/route.ts'
import { BallFrames } from './ball-frames.tsx'
import { BandPlot } from './band-plot.tsx'
import { planRead } from './plan-fields.ts'
import { PlanFigures } from './plan-figures.tsx'
import { PlanForm } from './plan-form.tsx'
import { TestDaySection } from './test-day.tsx'
import { usePlan, usePlanTexts } from './use-plan.ts'

/** Before filming: what this camera will do with such a hit, what limits it and what helps most. */
export function PlanScreen() {
  const texts = usePlanTexts(state => state.texts)
  const read = planRead(texts)
  const { plan, curves } = usePlan(read.setUp)
  const cameras = useAnswer('cameras.list', {}, ['cameras']).value ?? []
  return (
    <div className="foreseen aside-screen">
      <section className="foreseen-asked" aria-label="Set-up">
        <header>
          <h1>Plan</h1>
          <a className="quiet" href={hrefOf({ screen: 'cameras', cameraId: null })}>
            Cameras
          </a>
        </header>
        <PlanForm
          texts={texts}
          read={read}
          cameras={cameras}
          onTexts={to => usePlanTexts.setState({ texts: to })}
        />
      </section>
      <section className="foreseen-answer" aria-label="What to expect" aria-live="polite">
        {plan === null ? (
          <p className="quiet">
            {read.setUp === null ? 'Mend the field that says what it expects.' : 'Reckoning …'}
          </p>
        ) : (
          <>
            <header>
              <p className="foreseen-band figure">
                {plan.expected.fittingHalfWidthRpm === null ? (
                  'no figure'
                ) : (
                  <>
                    ±
                    {digits(
                      plan.expected.fittingHalfWidthRpm,
                      plan.expected.fittingHalfWidthRpm < 9.95 ? 1 : 0,
                    )}
                    <span className="unit"> rpm</span>
                  </>
                )}
              </p>
              <FlagMark flag={plan.flag} />
              <p className="foreseen-limits">{plan.limits}</p>
            </header>
            {plan.advice.length > 0 && (
              <div className="foreseen-advice">
                <h2>What helps, most first</h2>
                <ol>
                  {plan.advice.map(line => (
                    <li key={line}>{line}</li>
                  ))}
                </ol>
              </div>
            )}
            <div className="foreseen-pictures">
              <BandPlot plan={plan} curves={curves} />
              <BallFrames setUp={plan.setUp} diameterPx={plan.ballDiameterPx} />
            </div>
            <PlanFigures plan={plan} />
            <TestDaySection
              plan={plan}
              camera={cameras.find(({ name }) => name === texts.camera) ?? null}
              ball={texts.ball}
            />
          </>
        )}
      </section>
    </div>
  )
}
