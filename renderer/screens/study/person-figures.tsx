import type { Repeatability, StudyBias, StudyDot } from '../../../core/contract/study.ts'
import type { Session } from '../../../core/contract/workspace.ts'
import { counted } from '../../components/counted.ts'
import { digits } from '../../components/figure-text.ts'
import { hrefOf } from '../../state/route.ts'
import { DifferenceDots } from './difference-dots.tsx'
import { biasWords, spreadTexts } from './study-words.ts'
import { UseClickError } from './use-click-error.tsx'

type PersonFiguresProps = { session: Session; figures: Repeatability; bench: StudyBias; dots: StudyDot[] }

/** One person's own click error, what it rests on, and the step that takes it over. */
export function PersonFigures({ session, figures, bench, dots }: PersonFiguresProps) {
  const { person, items, pairs, unseen, px, xPx, yPx, bearingDeg, outlying, withoutOutlyingPx, reason } =
    figures
  const inPx = px && spreadTexts(px)
  const inDeg = bearingDeg && spreadTexts(bearingDeg)
  return (
    <article className="study-person">
      <div>
        <h2>{person}</h2>
        {inPx && (
          <>
            <p className="study-figure">
              {inPx.value}
              <span className="unit">&nbsp;px</span>
            </p>
            <p>
              own click error <span className="quiet">(repeatability)</span>, {inPx.interval}&nbsp;px with
              95&nbsp;% probability
            </p>
          </>
        )}
        {inDeg && (
          <p>
            {inDeg.value}° about the ball’s centre, {inDeg.interval}°
          </p>
        )}
        {reason && <p>{reason}</p>}
        <p className="quiet">
          {counted(pairs, 'second click')} on {counted(items, 'mark')}
          {unseen > 0 && `, ${unseen} not found`}
          {xPx !== null && yPx !== null && `; across ${digits(xPx, 2)}, down ${digits(yPx, 2)}\u00a0px`}
        </p>
        {bench.items > 0 && bench.reason === null && (
          <p className="quiet">Against the marks on the bench: {biasWords(bench)}.</p>
        )}
        {outlying.length > 0 && (
          <p>
            {outlying.map(({ hit, mark, frame, apartPx, grade }) => (
              <span key={`${hit} ${frame} ${mark}`}>
                <a href={hrefOf({ screen: 'bench', hitId: hit })}>
                  {mark} in frame {frame}
                </a>
                : {digits(apartPx, 1)}&nbsp;px apart <span className="quiet">({grade})</span>.{' '}
              </span>
            ))}
            {withoutOutlyingPx === null
              ? 'Still in the figure.'
              : `Still in the figure; without outliers it is ${digits(withoutOutlyingPx, 2)}\u00a0px.`}
          </p>
        )}
        {px && px.standardDeviation > 0 && (
          <UseClickError session={session} px={px.standardDeviation} insteadPx={withoutOutlyingPx} />
        )}
      </div>
      {dots.length > 0 && <DifferenceDots dots={dots} person={person} />}
    </article>
  )
}
