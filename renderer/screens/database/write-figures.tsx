import { useState } from 'react'
import type { Mapping, PlaceSeen } from '../../../core/contract/exchange.ts'
import type { ExportPlan } from '../../../core/contract/workspace.ts'
import { FileChooser } from '../../components/file-chooser.tsx'
import { ProblemNote } from '../../components/problem-note.tsx'
import { Progress } from '../../components/progress.tsx'
import { useHost } from '../../host/host.ts'
import { useAct, useAnswer } from '../../state/answers.ts'
import { MappingForm } from './mapping-form.tsx'
import { answered } from './name-question.tsx'
import { Outcome } from './outcome.tsx'
import { Plan } from './plan.tsx'
import { TargetLine } from './target-line.tsx'

/** From readings to the ratings database: choose where, see what will happen, then let it happen. */
export function WriteFigures() {
  const host = useHost()
  const info = useAnswer('workspace.info', {}, [])
  const [seen, setSeen] = useState<PlaceSeen | null>(null)
  const [mapping, setMapping] = useState<Mapping | null | undefined>(undefined)
  const [choosing, setChoosing] = useState(false)
  const [written, setWritten] = useState<ExportPlan | null>(null)
  const aim = seen && { target: seen.place, mapping }
  const preview = useAnswer('export.preview', aim, ['hits', 'paddles', 'clips', 'sessions', 'transfers'])
  const looking = useAct()
  const writing = useAct()

  const look = (words: string) => {
    setChoosing(false)
    setWritten(null)
    setMapping(undefined)
    setSeen(null)
    writing.forget()
    looking.run(async options => {
      const place = await host.call('export.look', { target: words }, options)
      setSeen(place)
    })
  }
  const change = (next: Mapping | null) => {
    setWritten(null)
    setMapping(next)
  }
  const write = () =>
    writing.run(async options => {
      if (aim === null) return
      setWritten(await host.call('export.write', aim, options))
      preview.again()
      info.again()
    })
  const plan = preview.value?.target === seen?.place ? preview.value : null
  const used = mapping === undefined ? (plan?.mapping ?? seen?.mapping ?? null) : mapping

  return (
    <>
      <TargetLine
        key={seen?.place}
        word="Write to"
        target={seen?.place ?? null}
        recent={info.value?.recentTargets ?? []}
        onTarget={look}
        onChoose={() => setChoosing(true)}
      />
      {choosing && (
        <FileChooser
          purpose="target"
          single
          verb="Use this name"
          onChosen={([path]) => path && look(path)}
          onCancel={() => setChoosing(false)}
        />
      )}
      {looking.problem && <ProblemNote problem={looking.problem} onForget={looking.forget} />}
      {looking.busy && <Progress progress={null} what="Looking at what is there" onCancel={looking.cancel} />}
      {seen && <MappingForm seen={seen} mapping={used} onMapping={change} />}
      {seen && !plan && !preview.problem && (
        <Progress progress={preview.progress} what="Comparing with what is there" />
      )}
      {preview.problem && seen && <ProblemNote problem={preview.problem} onAgain={preview.again} />}
      {seen === null && !choosing && !looking.busy && (
        <p className="database-empty">
          Choose where to write: a file, or a server’s connection string. What will be added, changed, left
          alone or held back then stands here, before anything is written.
        </p>
      )}
      {writing.problem && <ProblemNote problem={writing.problem} onForget={writing.forget} />}
      {writing.busy && <Progress progress={writing.progress} what="Writing" onCancel={writing.cancel} />}
      {plan && !preview.problem && (
        <>
          <Outcome plan={plan} written={written} busy={writing.busy} onWrite={write} />
          <Plan
            plan={written ?? plan}
            onName={(paddle, as) => used && change({ ...used, names: answered(used.names, paddle, as) })}
          />
        </>
      )}
    </>
  )
}
