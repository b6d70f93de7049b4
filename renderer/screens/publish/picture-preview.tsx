import type { PictureKind } from '../../../core/contract/publish.ts'
import { ProblemNote } from '../../components/problem-note.tsx'
import { Progress } from '../../components/progress.tsx'
import { useAnswer } from '../../state/answers.ts'
import { ratingChanges } from '../../state/ratings.ts'
import type { PublishedThing } from '../../state/route.ts'
import { usePublishSettings } from './publish-settings.ts'
import { save } from './published-bytes.ts'
import { ShownPicture } from './shown-picture.tsx'
import { useSettled } from './use-settled.ts'
import { madeWords, subjectOf } from './what.ts'

type PicturePreviewProps = { of: PublishedThing; ids: readonly string[]; kind: PictureKind }

/** The picture itself, drawn anew as settings change; what is seen is the file. */
export function PicturePreview({ of, ids, kind }: PicturePreviewProps) {
  const { look, size, formats } = usePublishSettings()
  const order = useSettled({ kind, of: subjectOf(of, ids), look, size, format: formats.picture })
  const { value, problem, again } = useAnswer('publish.picture', order, [...ratingChanges])
  // While another format is on its way, what stands there is still the last one.
  const file = value?.name.endsWith(`.${formats.picture}`) ? value : null
  return (
    <>
      <p className="publish-steps">
        <button type="button" className="main" disabled={!file} onClick={() => file && save(file)}>
          Save {formats.picture.toUpperCase()}
        </button>
        <span className="quiet">or drag the picture into another program</span>
      </p>
      {problem && <ProblemNote problem={problem} onAgain={again} />}
      {!value && !problem && <Progress progress={null} what="Drawing" />}
      {value && !problem && <ShownPicture file={value} paper={look.theme} words={madeWords[kind]} />}
    </>
  )
}
