import './study.css'
import { useState } from 'react'
import { ProblemNote } from '../../components/problem-note.tsx'
import { Progress } from '../../components/progress.tsx'
import { TopLine } from '../../components/top-line.tsx'
import { useAnswer } from '../../state/answers.ts'
import { hrefOf } from '../../state/route.ts'
import { StudyHome } from './study-home.tsx'
import { StudyStage } from './study-stage.tsx'

/** Marking a session's hits again, blind, and what that says of the person's own click error. */
export function StudyScreen({ sessionId }: { sessionId: string }) {
  const sessions = useAnswer('sessions.list', {}, ['sessions'])
  const list = useAnswer('study.list', { sessionId }, ['studies', 'hits'])
  const [studyId, setStudyId] = useState<string | null>(null)
  const problem = list.problem ?? sessions.problem
  const session = sessions.value?.find(each => each.id === sessionId)

  if (problem && (!list.value || !session))
    return (
      <div className="study">
        <ProblemNote problem={problem}>
          <a href={hrefOf({ screen: 'sessions', sessionId: null })}>Sessions</a>
        </ProblemNote>
      </div>
    )
  if (!list.value || !session) return <Progress progress={null} what="The session is being opened" />
  return (
    <>
      <TopLine>
        <p>
          <a href={hrefOf({ screen: 'sessions', sessionId })}>
            {session.place || 'Session'}, {session.day}
          </a>
          <span aria-hidden="true"> › </span>
          <span>marking study</span>
        </p>
      </TopLine>
      {studyId === null ? (
        <StudyHome session={session} list={list.value} onOpen={setStudyId} />
      ) : (
        <StudyStage key={studyId} studyId={studyId} onEnd={() => setStudyId(null)} />
      )}
    </>
  )
}
