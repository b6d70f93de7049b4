import { useRef, useState } from 'react'
import { ProblemNote } from '../../components/problem-note.tsx'
import { Progress } from '../../components/progress.tsx'
import { useAnswer } from '../../state/answers.ts'
import { ratingChanges } from '../../state/ratings.ts'
import type { PublishedThing } from '../../state/route.ts'
import { usePublishSettings } from './publish-settings.ts'
import { save, textOf } from './published-bytes.ts'
import { reportedOf } from './what.ts'

type LinesPreviewProps = { of: PublishedThing; ids: readonly string[] }

/** A line a paddle, to be copied or saved. */
export function LinesPreview({ of, ids }: LinesPreviewProps) {
  const { look, formats } = usePublishSettings()
  const lines = useRef<HTMLTextAreaElement>(null)
  const [copied, setCopied] = useState<string | null>(null)
  const reported = reportedOf(of, ids)
  const { value, problem, again } = useAnswer(
    'publish.report',
    reported && { of: reported, format: formats.lines, figures: look.figures },
    [...ratingChanges],
  )
  const file = value?.name.endsWith(`.${formats.lines}`) ? value : null
  const text = value ? textOf(value) : ''
  const copy = () => {
    lines.current?.select()
    // Works without a permission, which the desktop gives to no page.
    if (document.execCommand('copy')) setCopied(text)
  }
  return (
    <>
      <p className="publish-steps">
        <button type="button" className="main" disabled={!file} onClick={copy}>
          Copy
        </button>
        <button type="button" disabled={!file} onClick={() => file && save(file)}>
          Save
        </button>
        <span className="quiet" role="status">
          {copied !== null && copied === text ? 'Copied.' : ''}
        </span>
      </p>
      {problem && <ProblemNote problem={problem} onAgain={again} />}
      {!value && !problem && <Progress progress={null} what="Writing the lines" />}
      {value && !problem && (
        <textarea
          ref={lines}
          className="figure publish-lines"
          aria-label="Lines to paste"
          readOnly
          value={text}
        />
      )}
    </>
  )
}
