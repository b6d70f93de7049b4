import './sessions.css'
import { useRef, useState } from 'react'
import type { SessionDetails } from '../../../core/contract/workspace.ts'
import { counted } from '../../components/counted.ts'
import { dayInWords, today } from '../../components/day-words.ts'
import { FileChooser } from '../../components/file-chooser.tsx'
import { ProblemNote } from '../../components/problem-note.tsx'
import { Progress } from '../../components/progress.tsx'
import { useHost } from '../../host/host.ts'
import { useAnswer } from '../../state/answers.ts'
import { useKeys } from '../../state/keys.ts'
import { go } from '../../state/route.ts'
import { Backups } from './backups.tsx'
import { Doors } from './doors.tsx'
import { DropArea } from './drop-area.tsx'
import { Machines } from './machines.tsx'
import { SessionEntry } from './session-entry.tsx'
import { freshTexts } from './session-fields.ts'
import { SessionForm } from './session-form.tsx'
import { Totals } from './totals.tsx'
import { type Source, useAdding } from './use-adding.ts'

/** Home: what was filmed when, and how far each is. One session is open at a time, in its place. */
export function Sessions({ sessionId }: { sessionId: string | null }) {
  const host = useHost()
  const sessions = useAnswer('sessions.list', {}, ['sessions', 'clips', 'hits'])
  const adding = useAdding()
  const [making, setMaking] = useState<'no' | 'choosing' | 'form'>('no')
  /** Clips that wait for the session that is being made. */
  const waiting = useRef<Source | null>(null)
  const list = sessions.value ?? []
  const open = list.find(session => session.id === sessionId)

  const startNew = (source: Source | null) => {
    waiting.current = source
    setMaking('form')
  }
  const create = async (details: SessionDetails) => {
    const created = await host.call('sessions.create', { details })
    setMaking('no')
    go({ screen: 'sessions', sessionId: created.id })
    if (waiting.current) adding.add(created.id, waiting.current)
    waiting.current = null
  }
  const drop = (files: File[]) => {
    if (open && making === 'no') adding.add(open.id, { files })
    else startNew({ files })
  }
  useKeys('Sessions', [{ keys: ['n'], word: 'New session', run: () => startNew(null) }])

  if (sessions.problem && !sessions.value) {
    return (
      <div className="sessions">
        <ProblemNote problem={sessions.problem} onAgain={sessions.again} />
      </div>
    )
  }
  if (!sessions.value) return <Progress progress={null} what="Opening the workspace" />

  const where =
    open && making === 'no'
      ? `add to ${dayInWords(open.day)}${open.place && `, ${open.place}`}`
      : 'start a session'
  return (
    <DropArea word={`Drop clips to ${where}`} onDrop={drop}>
      <div className="sessions">
        {(list.length > 0 || making === 'form') && (
          <header className="sessions-head">
            <h1>Sessions</h1>
            {list.length > 0 && <Totals sessions={list} />}
            {making !== 'form' && (
              <button type="button" onClick={() => startNew(null)}>
                New session
              </button>
            )}
          </header>
        )}
        {making === 'form' && (
          <section className="sessions-new" aria-label="New session">
            {waiting.current && (
              <p>{counted(amountOf(waiting.current), 'clip')} will go into this session once it is kept.</p>
            )}
            <SessionForm
              start={freshTexts(list[0], today())}
              taken={list[0]?.camera.takenFrom ?? null}
              verb="Keep session"
              onKeep={create}
              onCancel={() => setMaking('no')}
            />
          </section>
        )}
        {list.length === 0 && making !== 'form' && (
          <Doors onAdd={() => setMaking('choosing')}>
            {making === 'choosing' && (
              <FileChooser
                purpose="clips"
                verb="Choose"
                onChosen={paths => startNew({ paths })}
                onCancel={() => setMaking('no')}
              />
            )}
          </Doors>
        )}
        <ol className="sessions-list">
          {list.map(session => (
            <SessionEntry
              key={session.id}
              session={session}
              open={session.id === sessionId}
              adding={adding}
            />
          ))}
        </ol>
        {list.length > 0 && <Machines />}
        {list.length > 0 && <Backups />}
      </div>
    </DropArea>
  )
}

const amountOf = (source: Source) => ('files' in source ? source.files : source.paths).length
