import './file-browser.css'
import { useState } from 'react'
import type { CallInput } from '../../core/contract/calls.ts'
import { useAnswer } from '../state/answers.ts'
import { counted } from './counted.ts'
import { FolderEntry } from './folder-entry.tsx'
import { ProblemNote } from './problem-note.tsx'
import { Progress } from './progress.tsx'

type FileBrowserProps = {
  purpose: CallInput<'files.pick'>['purpose']
  single: boolean
  verb: string
  onChosen: (paths: string[]) => void
  onCancel: () => void
}

/** The folders of this machine, in the page: for choosing clips, a folder, or a folder and a name to write to. */
export function FileBrowser({ purpose, single, verb, onChosen, onCancel }: FileBrowserProps) {
  const [folder, setFolder] = useState<string | null>(null)
  const [chosen, setChosen] = useState<string[]>([])
  const [name, setName] = useState('ratings.sqlite')
  const { value, problem } = useAnswer('files.list', { folder }, [])

  const open = (path: string | null) => {
    setFolder(path)
    setChosen([])
  }
  const toggle = (path: string) =>
    setChosen(last =>
      last.includes(path) ? last.filter(each => each !== path) : single ? [path] : [...last, path],
    )
  const clips = value?.entries.filter(entry => entry.kind === 'clip') ?? []
  const shown = value?.entries.filter(entry => purpose === 'clips' || entry.kind === 'folder') ?? []
  const paths = {
    clips: chosen,
    folder: value?.path ? [value.path] : [],
    target: value?.path && name.trim() ? [joined(value.path, name.trim())] : [],
  }[purpose]

  return (
    <section ref={bringIntoView} className="file-browser" aria-label="Folders of this machine">
      <header>
        {(value?.parent || folder !== null) && (
          <button type="button" onClick={() => open(value?.parent ?? null)}>
            Up
          </button>
        )}
        <span className="figure file-browser-path">{value?.path}</span>
        {!single && purpose === 'clips' && clips.length > 1 && (
          <button type="button" className="plain" onClick={() => setChosen(clips.map(each => each.path))}>
            Choose all {clips.length}
          </button>
        )}
      </header>
      {problem && (
        <ProblemNote problem={problem}>
          <button type="button" className="plain" onClick={() => open(value?.path ?? null)}>
            Back to the folder before
          </button>
        </ProblemNote>
      )}
      {!value && !problem && <Progress progress={null} what="Looking into the folder" />}
      <ul>
        {shown.map(entry => (
          <li key={entry.path}>
            <FolderEntry entry={entry} chosen={chosen} onOpen={open} onToggle={toggle} />
          </li>
        ))}
        {value && shown.length === 0 && (
          <li className="quiet">No {purpose === 'clips' ? 'clips and no folders' : 'folders'} in here.</li>
        )}
      </ul>
      <footer>
        {purpose === 'target' && (
          <label>
            <span className="quiet">Name</span>
            <input value={name} onChange={event => setName(event.target.value)} spellCheck={false} />
          </label>
        )}
        <button type="button" className="main" disabled={paths.length === 0} onClick={() => onChosen(paths)}>
          {purpose === 'clips' && !single ? `${verb} ${counted(paths.length, 'clip')}` : verb}
        </button>
        <button type="button" onClick={onCancel}>
          Cancel
        </button>
      </footer>
    </section>
  )
}

const bringIntoView = (section: HTMLElement | null) => section?.scrollIntoView({ block: 'center' })

/** A name inside a folder, with the separator that the folder's own path uses. */
const joined = (folder: string, name: string) => {
  const separator = folder.includes('\\') ? '\\' : '/'
  return folder.endsWith(separator) ? `${folder}${name}` : `${folder}${separator}${name}`
}
