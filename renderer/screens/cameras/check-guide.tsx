import type { CameraProfile, CameraProfileDetails } from '../../../core/contract/cameras.ts'
import { Field } from '../../components/field.tsx'
import { ProblemNote } from '../../components/problem-note.tsx'
import { Progress } from '../../components/progress.tsx'
import { CheckClip } from './check-clip.tsx'
import { CheckDrawing } from './check-drawing.tsx'
import { CheckResult } from './check-result.tsx'
import { type Checked, guides } from './check-ways.ts'
import { useCheck } from './use-check.ts'

type CheckGuideProps = {
  camera: CameraProfile
  what: Checked
  onKeep: (details: CameraProfileDetails) => Promise<unknown>
  onLeave: () => void
}

/** Leads through one check: what to film, how, the clip, the few numbers, and what came out. */
export function CheckGuide({ camera, what, onKeep, onLeave }: CheckGuideProps) {
  const check = useCheck(camera, what)
  const { title, ways } = guides[what]
  const { guide, choose, needsClip, widthPx, otherMode } = check
  const { texts, say, notes, problems, tried, ready, run, act, found, kept } = check

  return (
    <section className="check-guide" aria-label={title}>
      <h3>{title}</h3>
      <fieldset className="check-ways">
        <legend className="quiet">What is filmed</legend>
        {ways.map(each => (
          <label key={each.way}>
            <input type="radio" name="check-way" checked={each === guide} onChange={() => choose(each)} />
            {each.word}
          </label>
        ))}
      </fieldset>
      <div className="check-how">
        <CheckDrawing way={guide.way} />
        <ol>
          {guide.lines.map(line => (
            <li key={line}>{line}</li>
          ))}
        </ol>
      </div>
      <form
        className="check-fields"
        noValidate
        onSubmit={event => {
          event.preventDefault()
          run()
        }}
      >
        {needsClip && <CheckClip check={check} />}
        <div className="check-numbers">
          {guide.fields.map(({ name, ...shown }) => (
            <Field
              key={name}
              {...shown}
              text={texts[name]}
              onText={text => say(name, text)}
              problem={tried || texts[name] !== '' ? problems[name] : undefined}
              note={notes[name]}
            />
          ))}
        </div>
        {!needsClip && widthPx === null && (
          <p className="field-problem">
            Say the camera’s picture first (Change): an angle alone has no pixels.
          </p>
        )}
        <div className="check-steps">
          {act.busy ? (
            <Progress progress={act.progress} what="Looking at the clip" onCancel={act.cancel} />
          ) : (
            <button type="submit" className={found ? '' : 'main'} disabled={tried && !ready}>
              Check
            </button>
          )}
          <button type="button" className="plain" onClick={onLeave}>
            Leave the check
          </button>
        </div>
      </form>
      {act.problem && <ProblemNote problem={act.problem} onForget={act.forget} />}
      {found && (
        <CheckResult found={found}>
          <button
            type="button"
            className="main"
            disabled={act.busy || otherMode !== null}
            onClick={() => act.run(() => onKeep(kept()))}
          >
            Keep it with this camera
          </button>
          {otherMode && <span className="field-problem">{otherMode}</span>}
        </CheckResult>
      )}
    </section>
  )
}
