import { useState } from 'react'
import { themeSchema } from '../../../core/contract/publish.ts'
import { Field } from '../../components/field.tsx'
import { ProblemNote } from '../../components/problem-note.tsx'
import { useHost } from '../../host/host.ts'
import { useAct, useAnswer } from '../../state/answers.ts'
import { Choice } from './choice.tsx'
import { usePublishSettings, wear } from './publish-settings.ts'

/** Looks under names of the person's: kept in the workspace, worn with one choice, the same on the command line. */
export function SavedLooks() {
  const host = useHost()
  const act = useAct()
  const { look, size, clip } = usePublishSettings()
  const { value: looks } = useAnswer('publish.looks', {}, ['looks'])
  const [naming, setNaming] = useState<string | null>(null)
  const isWorn = (one: object) => same(one, { look, size, clip })
  const worn = looks?.find(({ name: _, ...one }) => isWorn(one))
  const taken = themeSchema.options.some(theme => theme === naming?.trim().toLowerCase())
  const keep = (name: string) =>
    act.run(async options => {
      await host.call('publish.keepLook', { saved: { name, look, size, clip } }, options)
      setNaming(null)
    })
  return (
    <div className="publish-looks">
      {looks && looks.length > 0 && (
        <Choice
          label="Kept looks"
          none="none of them"
          value={worn?.name ?? ''}
          options={looks.map(({ name }) => [name, name])}
          onChoose={name => {
            const chosen = looks.find(one => one.name === name)
            if (chosen) wear(chosen)
          }}
        />
      )}
      {naming === null ? (
        <p>
          <button type="button" className="plain" onClick={() => setNaming(worn?.name ?? '')}>
            Keep this look…
          </button>
          {worn && (
            <button
              type="button"
              className="plain"
              onClick={() => act.run(options => host.call('publish.dropLook', { name: worn.name }, options))}
            >
              Forget {worn.name}
            </button>
          )}
        </p>
      ) : (
        <form
          onSubmit={event => {
            event.preventDefault()
            keep(naming.trim())
          }}
          onKeyDown={event => event.key === 'Escape' && setNaming(null)}
        >
          <Field
            label="Name of the look"
            hint="Channel"
            note="The command line takes it too: --look"
            text={naming}
            onText={setNaming}
            problem={taken ? 'that is a paper’s own word' : undefined}
          />
          <button type="submit" disabled={naming.trim() === '' || taken || act.busy}>
            Keep
          </button>
          <button type="button" className="plain" onClick={() => setNaming(null)}>
            leave
          </button>
        </form>
      )}
      {act.problem && <ProblemNote problem={act.problem} onForget={act.forget} />}
    </div>
  )
}

/** Equal whatever order the fields stand in: one of them came back from the workspace. */
const same = (a: unknown, b: unknown): boolean => sorted(a) === sorted(b)
const sorted = (value: unknown) =>
  JSON.stringify(value, (_, one: unknown) =>
    one !== null && typeof one === 'object' && !Array.isArray(one)
      ? Object.fromEntries(Object.entries(one).sort(([x], [y]) => (x < y ? -1 : 1)))
      : one,
  )
