import type { StudyReport } from '../../../core/contract/study.ts'
import type { Session } from '../../../core/contract/workspace.ts'
import { digits } from '../../components/figure-text.ts'
import { PersonFigures } from './person-figures.tsx'
import { biasWords } from './study-words.ts'

/** What the studies of a session say: each person, then people against each other. */
export function StudyFindings({ session, report }: { session: Session; report: StudyReport }) {
  const { people, bias, bench, reproducibility, dots } = report
  const told = bias.filter(({ reason }) => reason === null)
  return (
    <section className="study-findings" aria-label="What the studies say">
      {people.map((person, i) => (
        <PersonFigures
          key={person.person}
          session={session}
          figures={person}
          bench={bench[i]!}
          dots={dots.filter(dot => dot.person === person.person)}
        />
      ))}
      {people.length > 1 && (
        <div className="study-between">
          <h2>Between people</h2>
          {told.length === 0 && <p>{bias[0]?.reason}</p>}
          {told.map(each => (
            <p key={`${each.person} ${each.against}`}>
              {each.person} against {each.against} <span className="quiet">(bias)</span>: {biasWords(each)}.
            </p>
          ))}
          {reproducibility?.reproducibilityPx != null && (
            <p>
              Any one click by any of them scatters by {digits(reproducibility.reproducibilityPx, 2)}&nbsp;px{' '}
              <span className="quiet">(reproducibility)</span>
              {reproducibility.betweenPeoplePx !== null &&
                `; between the people alone it is ${digits(reproducibility.betweenPeoplePx, 2)}\u00a0px`}
              .
            </p>
          )}
        </div>
      )}
    </section>
  )
}
