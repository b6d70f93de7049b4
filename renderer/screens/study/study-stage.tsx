import { useEffect } from 'react'
import { ProblemNote } from '../../components/problem-note.tsx'
import { Progress } from '../../components/progress.tsx'
import { useKeys } from '../../state/keys.ts'
import { StudyBall } from './study-ball.tsx'
import { usePictures } from './use-pictures.ts'
import { useStudy } from './use-study.ts'

type StudyStageProps = { studyId: string; onEnd: () => void }

/** One mark after the other, blind: the ball, what to click, and how far one is. */
export function StudyStage({ studyId, onEnd }: StudyStageProps) {
  const { study, problem, mark, takeBack, saved } = useStudy(studyId)
  const tasks = study?.tasks ?? null
  const done = study?.done ?? 0
  const picture = usePictures(tasks, done)
  const task = tasks?.[done]
  const isOver = tasks !== null && done >= tasks.length
  const leave = () => saved().then(onEnd)

  useEffect(() => {
    if (isOver) saved().then(onEnd)
  }, [isOver, saved, onEnd])
  useKeys('The study', [
    { keys: ['x'], word: 'not to be found in this picture', run: () => task && mark({ kind: 'unseen' }) },
    { keys: ['Backspace'], word: 'take the last one back', run: takeBack },
    { keys: ['Escape'], word: 'stop for now', run: leave },
  ])

  if (!task)
    return (
      <div className="study">
        {problem ? (
          <ProblemNote problem={problem}>
            <button type="button" onClick={onEnd}>
              Back
            </button>
          </ProblemNote>
        ) : (
          <Progress progress={null} what="The study is being opened" />
        )}
      </div>
    )
  return (
    <section className="stage study-stage" data-theme="dark" aria-label="Stage">
      <div className="stage-left">
        <div className="ask">
          <p className="ask-line" aria-live="polite">
            {task.mark.kind === 'point'
              ? `Click the ${task.mark.id}.`
              : `Click where the ${task.mark.id} points.`}
          </p>
          <p className="study-hint">Arrow keys move a crosshair, Enter places it.</p>
          {problem && <ProblemNote problem={problem} />}
        </div>
      </div>
      <StudyBall
        key={done}
        task={task}
        picture={picture}
        name={`Mark ${done + 1} of ${tasks!.length}: the ${task.mark.id}`}
        onSeen={mark}
      />
      <div className="stage-right study-right">
        <div className="study-progress">
          <p>
            <span className="figure">{done + 1}</span> of {tasks!.length}
          </p>
          <progress aria-label="Marks done" max={tasks!.length} value={done} />
        </div>
        <div className="study-steps">
          <button type="button" onClick={() => mark({ kind: 'unseen' })} aria-keyshortcuts="x">
            Not to be found
          </button>
          <button type="button" className="plain" disabled={done === 0} onClick={takeBack}>
            take the last one back
          </button>
          <button type="button" className="plain" onClick={leave}>
            stop for now
          </button>
        </div>
      </div>
    </section>
  )
}
