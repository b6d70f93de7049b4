import type { BatchOrder } from '../../../core/contract/publish.ts'
import type { TableRow } from '../../../core/contract/standings.ts'
import type { Session } from '../../../core/contract/workspace.ts'
import { useAnswer } from '../../state/answers.ts'
import type { PublishedThing } from '../../state/route.ts'
import { ClipForm } from './clip-form.tsx'
import { ClipPreview } from './clip-preview.tsx'
import { LinesPreview } from './lines-preview.tsx'
import { LookForm } from './look-form.tsx'
import { MadeForm } from './made-form.tsx'
import { ManyForm } from './many.tsx'
import { PicturePreview } from './picture-preview.tsx'
import { type PublishSettings, usePublishSettings } from './publish-settings.ts'
import { ReportPreview } from './report-preview.tsx'
import { SavedLooks } from './saved-looks.tsx'
import { SubjectForm } from './subject-form.tsx'
import { type ChosenHit, isEnough, isPicture, type Made, madeOf, madeWords } from './what.ts'

type PublishProps = {
  of: PublishedThing
  /** As the address names it; without a name the first there is. */
  asked: string[]
  hits: readonly ChosenHit[]
  sessions: readonly Session[]
  rows: readonly TableRow[]
}

/** Settings at the left, what comes of them at the right. */
export function Publish({ of, asked, hits, sessions, rows }: PublishProps) {
  const settings = usePublishSettings()
  const first = { hit: hits[0]?.hitId, paddle: rows[0]?.setUpId, session: sessions[0]?.id }
  const ids = asked.length > 0 || of === 'comparison' || of === 'ranking' ? asked : [first[of] ?? []].flat()
  const wanted = settings.made[of]
  const made = wanted && madeOf[of].includes(wanted) ? wanted : madeOf[of][0]!
  const hit = of === 'hit' ? hits.find(one => one.hitId === ids[0]) : undefined
  /** Another thing begins anew: the last one’s picture would stand under its name. */
  const shown = [of, made, ...ids].join(' ')
  const batch = batchOf(made, settings)
  if (rows.length === 0 && hits.length === 0)
    return (
      <p className="publish-empty">
        Pictures, reports and clips are made here from hits that have a reading. There is none yet: add a clip
        under Sessions and mark its ball.
      </p>
    )
  return (
    <div className="publish-columns">
      <form className="publish-settings" noValidate onSubmit={event => event.preventDefault()}>
        <SubjectForm {...{ of, ids, hits, sessions, rows }} />
        <MadeForm of={of} made={made} />
        {made === 'clip' && <ClipFormOf hit={hit} />}
        <LookForm what={isPicture(made) ? 'picture' : made === 'report' ? 'report' : 'figures'} />
      </form>
      <section className="publish-made" aria-label="What comes of it">
        {!isEnough(of, ids, made) ? (
          <p className="publish-empty">{missingWords(of, made)}</p>
        ) : isPicture(made) ? (
          <PicturePreview key={shown} {...{ of, ids, kind: made }} />
        ) : made === 'report' ? (
          <ReportPreview key={shown} {...{ of, ids }} />
        ) : made === 'lines' ? (
          <LinesPreview key={shown} {...{ of, ids }} />
        ) : (
          hit && <ClipPreview key={hit.hitId} hit={hit} />
        )}
      </section>
      <div className="publish-more">
        <SavedLooks />
        {batch && <ManyForm make={batch} word={madeWords[made]} sessions={sessions} />}
      </div>
    </div>
  )
}

/** The rate that the hit was filmed at decides how slow its clip can run. */
function ClipFormOf({ hit }: { hit: ChosenHit | undefined }) {
  const { value } = useAnswer('hits.open', hit ? { hitId: hit.hitId } : null, ['hits', 'clips'])
  return <ClipForm captureFps={value?.used?.captureFps ?? null} />
}

const missingWords = (of: PublishedThing, made: Made): string =>
  of === 'comparison'
    ? made === 'difference'
      ? 'Choose two paddles: their difference is drawn here.'
      : 'Choose two paddles or more.'
    : 'There is none of these yet.'

/** What can be made for each of many paddles; null for what shows several at once. */
function batchOf(made: Made, { look, size, clip, formats }: PublishSettings): BatchOrder['make'] | null {
  const { accents, figures } = look
  if (made === 'clip') return { what: 'clip', order: { ...clip, format: formats.clip, figures } }
  if (made === 'report') return { what: 'report', order: { format: formats.report, accents, figures } }
  if (!isPicture(made) || made === 'ranking' || made === 'difference' || made === 'hits') return null
  return { what: 'picture', order: { kind: made, look, size, format: formats.picture } }
}
