import type { StudyList } from '../../../core/contract/study.ts'
import type { Session } from '../../../core/contract/workspace.ts'
import { counted } from '../../components/counted.ts'
import { ProblemNote } from '../../components/problem-note.tsx'
import { RemoveStep } from '../../components/remove-step.tsx'
import { useHost } from '../../host/host.ts'
import { useAnswer } from '../../state/answers.ts'
import { hrefOf } from '../../state/route.ts'
import { StudyBegin } from './study-begin.tsx'
import { StudyFindings } from './study-findings.tsx'

type StudyHomeProps = { session: Session; list: StudyList; onOpen: (studyId: string) => void }

/** What a study is, the way into one, those that were begun, and what they say. */
export function StudyHome({ session, list, onOpen }: StudyHomeProps) {
  const host = useHost()
  const report = useAnswer('study.report', { sessionId: session.id }, ['studies'])
  const hasRemarks = list.studies.some(({ done }) => done > 0)
  return (
    <div className="study">
      <header>
        <h1>Marking study</h1>
        <p className="study-about">
          How far do your own clicks scatter? Marks of this session are shown again, each twice, in an order
          by chance and without what was marked before.
        </p>
      </header>
      {list.markable === 0 ? (
        <p className="study-empty">
          Nothing in this session is marked yet. Measure a hit first, then come back:{' '}
          <a href={hrefOf({ screen: 'sessions', sessionId: session.id })}>to its clips</a>.
        </p>
      ) : (
        <StudyBegin
          sessionId={session.id}
          markable={list.markable}
          people={[...new Set(list.studies.map(({ person }) => person))]}
          onBegun={onOpen}
        />
      )}
      {list.studies.length > 0 && (
        <ul className="study-list">
          {list.studies.map(({ id, person, tasks, done }) => (
            <li key={id}>
              <span>{person}</span>
              <span className="quiet">{done === tasks ? counted(done, 'click') : `${done} of ${tasks}`}</span>
              {done < tasks ? (
                <button type="button" onClick={() => onOpen(id)}>
                  Go on
                </button>
              ) : (
                <span className="quiet">done</span>
              )}
              <RemoveStep
                word="Remove"
                loses={`${counted(done, 'click')} of ${person} will be lost.`}
                onRemove={() => host.call('study.remove', { studyId: id })}
              />
            </li>
          ))}
        </ul>
      )}
      {report.problem && <ProblemNote problem={report.problem} />}
      {hasRemarks && report.value && <StudyFindings session={session} report={report.value} />}
    </div>
  )
}
