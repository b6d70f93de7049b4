import { ProblemNote } from '../../components/problem-note.tsx'
import { Progress } from '../../components/progress.tsx'
import { useHost } from '../../host/host.ts'
import { useAct, useAnswer } from '../../state/answers.ts'
import { ratingChanges } from '../../state/ratings.ts'
import type { PublishedThing } from '../../state/route.ts'
import { usePublishSettings } from './publish-settings.ts'
import { save, textOf } from './published-bytes.ts'
import { useSettled } from './use-settled.ts'
import { reportedOf } from './what.ts'

type ReportPreviewProps = { of: PublishedThing; ids: readonly string[] }

/** The report in a frame without any rights: it can run nothing and ask for nothing. */
export function ReportPreview({ of, ids }: ReportPreviewProps) {
  const host = useHost()
  const act = useAct()
  const { look, formats } = usePublishSettings()
  const reported = reportedOf(of, ids)
  const order = useSettled(reported && { of: reported, accents: look.accents, figures: look.figures })
  const { value, problem, again } = useAnswer('publish.report', order && { ...order, format: 'html' }, [
    ...ratingChanges,
  ])
  const { report: format } = formats
  const saveIt = () =>
    act.run(async options => {
      if (!order) return
      save(await host.call('publish.report', { ...order, format }, options))
    })
  return (
    <>
      <p className="publish-steps">
        <button type="button" className="main" disabled={!value || act.busy} onClick={saveIt}>
          Save {format.toUpperCase()}
        </button>
        {format === 'pdf' && <span className="quiet">set on A4 pages; below the same as a page to read</span>}
      </p>
      {act.problem && <ProblemNote problem={act.problem} onForget={act.forget} />}
      {act.busy && <Progress progress={act.progress} what="Writing the report" onCancel={act.cancel} />}
      {problem && <ProblemNote problem={problem} onAgain={again} />}
      {!value && !problem && <Progress progress={null} what="Writing the report" />}
      {value && !problem && (
        <iframe className="publish-report" title="The report" sandbox="" srcDoc={textOf(value)} />
      )}
    </>
  )
}
