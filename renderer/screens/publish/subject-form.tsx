import { useMemo } from 'react'
import type { TableRow } from '../../../core/contract/standings.ts'
import type { Session } from '../../../core/contract/workspace.ts'
import { rpmWithHalfWidth } from '../../components/figure-text.ts'
import { go, type PublishedThing } from '../../state/route.ts'
import { Choice } from './choice.tsx'
import { type ChosenHit, thingWords } from './what.ts'

type SubjectFormProps = {
  of: PublishedThing
  ids: string[]
  hits: readonly ChosenHit[]
  sessions: readonly Session[]
  rows: readonly TableRow[]
}

/** Of what: a hit, a paddle, a session, several paddles, or all of them. */
export function SubjectForm({ of, ids, hits, sessions, rows }: SubjectFormProps) {
  const choose = (next: string[]) => go({ screen: 'publish', of, ids: next }, 'in place')
  const paddles = useMemo(
    () => rows.map(row => [row.setUpId, `${row.paddle}, ${row.setUp}`] as const),
    [rows],
  )
  return (
    <fieldset className="publish-fields">
      <legend>Of what</legend>
      <Choice
        label="Shows"
        value={of}
        options={Object.entries(thingWords) as [PublishedThing, string][]}
        onChoose={thing => go({ screen: 'publish', of: thing, ids: [] }, 'in place')}
      />
      {of === 'hit' && (
        <div className="field" data-wide="true">
          <label htmlFor="publish-hit">Hit</label>
          <select id="publish-hit" value={ids[0] ?? ''} onChange={event => choose([event.target.value])}>
            {sessions.map(session => (
              <optgroup key={session.id} label={[session.day, session.place].filter(Boolean).join(', ')}>
                {hits
                  .filter(hit => hit.sessionId === session.id)
                  .map(hit => (
                    <option key={hit.hitId} value={hit.hitId}>
                      {hitWords(hit)}
                    </option>
                  ))}
              </optgroup>
            ))}
          </select>
        </div>
      )}
      {of === 'paddle' && (
        <Choice label="Paddle" value={ids[0] ?? ''} options={paddles} onChoose={id => choose([id])} />
      )}
      {of === 'session' && (
        <Choice
          label="Session"
          value={ids[0] ?? ''}
          options={sessions.map(session => [
            session.id,
            [session.day, session.place].filter(Boolean).join(', '),
          ])}
          onChoose={id => choose([id])}
        />
      )}
      {of === 'comparison' && (
        <div className="field" data-wide="true">
          <ul className="publish-compared">
            {ids.map(id => (
              <li key={id}>
                <span>{paddles.find(([other]) => other === id)?.[1]}</span>
                <button
                  type="button"
                  className="plain"
                  aria-label={`Leave out ${paddles.find(([other]) => other === id)?.[1]}`}
                  onClick={() => choose(ids.filter(other => other !== id))}
                >
                  leave out
                </button>
              </li>
            ))}
          </ul>
          {ids.length < 12 && (
            <Choice
              label="Add"
              none="a paddle…"
              value=""
              options={paddles.filter(([id]) => !ids.includes(id))}
              onChoose={id => choose([...ids, id])}
            />
          )}
        </div>
      )}
    </fieldset>
  )
}

const hitWords = ({ clipName, window, paddle, reading }: ChosenHit) =>
  [
    `${clipName}@${window.fromFrame}`,
    ...(paddle ? [paddle] : []),
    reading?.rpm == null ? 'no figure' : `${rpmWithHalfWidth(reading.rpm, null)} rpm`,
  ].join(' · ')
