import { useState } from 'react'
import type { WatchState } from '../../../core/contract/queue.ts'
import { counted } from '../../components/counted.ts'
import { Field } from '../../components/field.tsx'
import { FolderChooser } from '../../components/folder-chooser.tsx'
import { ProblemNote } from '../../components/problem-note.tsx'
import { useHost } from '../../host/host.ts'
import { useAct, useAnswer } from '../../state/answers.ts'

/** A folder whose new clips come into the session and are read as they come. */
export function WatchedFolder({ sessionId }: { sessionId: string }) {
  const host = useHost()
  const act = useAct()
  const { value: watch } = useAnswer('watch.state', { sessionId }, ['queue', 'clips'])
  const [folder, setFolder] = useState<string | null>(null)
  const [choosing, setChoosing] = useState(false)
  const set = (path: string | null) =>
    act.run(async () => {
      await host.call('watch.set', { sessionId, folder: path })
      setFolder(null)
    })
  if (!watch) return null
  return (
    <div className="watched-folder">
      {watch.folder !== null && (
        <p className="quiet" role="status">
          {watchWords(watch)}{' '}
          <button type="button" className="plain" onClick={() => set(null)}>
            Stop watching
          </button>
        </p>
      )}
      {watch.folder === null && folder === null && (
        <button type="button" className="plain" onClick={() => setFolder('')}>
          Watch a folder…
        </button>
      )}
      {watch.folder === null && folder !== null && (
        <form
          onSubmit={event => {
            event.preventDefault()
            set(folder.trim())
          }}
          onKeyDown={event => event.key === 'Escape' && setFolder(null)}
        >
          <Field
            label="Folder to watch"
            hint="/home/me/phone"
            note="Clips that arrive there from now on come into this session and are read."
            wide
            text={folder}
            onText={setFolder}
          />
          <button type="submit" disabled={folder.trim() === '' || act.busy}>
            Watch
          </button>
          <button type="button" className="plain" onClick={() => setChoosing(true)}>
            Choose the folder…
          </button>
          <button type="button" className="plain" onClick={() => setFolder(null)}>
            leave
          </button>
        </form>
      )}
      {choosing && <FolderChooser onFolder={setFolder} onDone={() => setChoosing(false)} />}
      {act.problem && <ProblemNote problem={act.problem} onForget={act.forget} />}
    </div>
  )
}

function watchWords({ folder, problem, waiting, arrived }: WatchState): string {
  const came =
    arrived.length === 0
      ? 'Nothing has arrived yet.'
      : `${counted(arrived.length, 'clip')} came in, ${arrived.at(-1)} last.`
  const wait = waiting.length === 0 ? '' : ` Not whole yet: ${waiting.join(', ')}.`
  return `Watches ${folder}. ${problem ?? `${came}${wait}`}`
}
