import { useState } from 'react'
import type { BatchDone, BatchOrder, Many } from '../../../core/contract/publish.ts'
import type { Session } from '../../../core/contract/workspace.ts'
import { counted } from '../../components/counted.ts'
import { Field } from '../../components/field.tsx'
import { FolderChooser } from '../../components/folder-chooser.tsx'
import { ProblemNote } from '../../components/problem-note.tsx'
import { Progress } from '../../components/progress.tsx'
import { useHost } from '../../host/host.ts'
import { useAct } from '../../state/answers.ts'
import { Choice } from './choice.tsx'

type ManyFormProps = { make: BatchOrder['make']; word: string; sessions: readonly Session[] }

/** The same for many paddles: a file each, into one folder. One that cannot be made does not stop the others. */
export function ManyForm({ make, word, sessions }: ManyFormProps) {
  const host = useHost()
  const act = useAct()
  const years = [...new Set(sessions.map(({ day }) => day.slice(0, 4)))].toSorted().toReversed()
  const options: [string, string][] = [
    ...years.map((year): [string, string] => [year, `Season ${year}`]),
    ...sessions.map((one): [string, string] => [one.id, `Session ${one.day} ${one.place}`.trim()]),
    ['all', 'All paddles'],
  ]
  const [whose, setWhose] = useState(options[0]![0])
  const [folder, setFolder] = useState('')
  const [choosing, setChoosing] = useState(false)
  const [done, setDone] = useState<BatchDone | null>(null)
  const run = () => {
    setDone(null)
    return act.run(async options => {
      setDone(await host.call('publish.batch', { of: manyOf(whose, years), folder, make }, options))
    })
  }
  const failed = done?.made.filter(one => one.problem !== null) ?? []
  return (
    <section className="publish-many" aria-label="For many paddles">
      <h2>For many paddles</h2>
      <p className="quiet">{word} of each, as above, into a folder of yours.</p>
      <div className="publish-fields">
        <Choice label="Paddles of" value={whose} options={options} onChoose={setWhose} />
        <Field label="Folder" hint="/home/me/reports" wide text={folder} onText={setFolder} />
      </div>
      <p className="publish-steps">
        <button type="button" disabled={folder.trim() === '' || act.busy} onClick={run}>
          Make them
        </button>
        <button type="button" className="plain" onClick={() => setChoosing(true)}>
          Choose the folder…
        </button>
      </p>
      {choosing && <FolderChooser onFolder={setFolder} onDone={() => setChoosing(false)} />}
      {act.problem && <ProblemNote problem={act.problem} onForget={act.forget} />}
      {act.busy && <Progress progress={act.progress} what="Making" onCancel={act.cancel} />}
      {done && (
        <p role="status">
          {counted(done.made.length - failed.length, 'file')} made.
          {failed.length > 0 && ` ${counted(failed.length, 'paddle')} could not be:`}
        </p>
      )}
      <ul>
        {failed.map(({ paddle, problem }) => (
          <li key={paddle}>
            {paddle}: <span className="quiet">{problem?.message}</span>
          </li>
        ))}
      </ul>
    </section>
  )
}

function manyOf(whose: string, years: readonly string[]): Many {
  if (whose === 'all') return { kind: 'all' }
  return years.includes(whose)
    ? { kind: 'season', year: Number(whose) }
    : { kind: 'session', sessionId: whose }
}
