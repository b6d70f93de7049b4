import { useState } from 'react'
import type { ImportPlan, ImportRules } from '../../../core/contract/exchange.ts'
import { ProblemNote } from '../../components/problem-note.tsx'
import { Progress } from '../../components/progress.tsx'
import { useHost } from '../../host/host.ts'
import { useAct, useAnswer } from '../../state/answers.ts'
import { ImportColumns } from './import-columns.tsx'
import { ImportLines } from './import-lines.tsx'
import { answered } from './name-question.tsx'
import { TargetLine } from './target-line.tsx'

const asGuessed: ImportRules = { table: null, paddleColumn: null, setUpColumn: null, leftOut: [], names: [] }

/** From a person's table into the workspace: what it would bring, what was not understood, then the step. */
export function BringIn() {
  const host = useHost()
  const [source, setSource] = useState<string | null>(null)
  const [rules, setRules] = useState(asGuessed)
  const [done, setDone] = useState<ImportPlan | null>(null)
  const preview = useAnswer('import.preview', source === null ? null : { source, rules }, ['paddles'])
  const bringing = useAct()

  const open = (words: string) => {
    setSource(words)
    setRules(asGuessed)
    setDone(null)
    if (words === source) preview.again()
  }
  const change = (next: Partial<ImportRules>) => {
    setDone(null)
    setRules(last => ({ ...last, ...next }))
  }
  const bring = () =>
    bringing.run(async options => {
      if (source === null) return
      setDone(await host.call('import.write', { source, rules }, options))
    })
  const plan = source === null ? null : (done ?? preview.value)

  return (
    <>
      <TargetLine
        key={plan?.place}
        word="Read from"
        target={plan?.place ?? source}
        recent={[]}
        onTarget={open}
        onFile={file => bringing.run(async options => open(await host.pathOf(file, options)))}
      />
      {source === null && (
        <p className="database-empty">
          Choose a sheet (.xlsx, .csv, .json), a .sqlite file or a server’s connection string. What it would
          bring stands here first, with every cell that was not understood.
        </p>
      )}
      {bringing.problem && <ProblemNote problem={bringing.problem} onForget={bringing.forget} />}
      {preview.problem && source !== null && <ProblemNote problem={preview.problem} />}
      {(bringing.busy || (source !== null && !plan && !preview.problem)) && (
        <Progress progress={bringing.progress} what="Reading the table" onCancel={bringing.cancel} />
      )}
      {plan && !preview.problem && (
        <>
          <ImportColumns plan={plan} rules={rules} onRules={change} />
          <ImportLines
            plan={plan}
            busy={bringing.busy}
            onBring={bring}
            onName={(paddle, as) => change({ names: answered(rules.names, paddle, as) })}
          />
        </>
      )}
    </>
  )
}
