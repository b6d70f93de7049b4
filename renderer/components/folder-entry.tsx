import type { FolderEntry as EntryData } from '../../core/contract/calls.ts'
import { digits } from './figure-text.ts'

type FolderEntryProps = {
  entry: EntryData
  chosen: string[]
  onOpen: (path: string) => void
  onToggle: (path: string) => void
}

/** One line of a folder: a folder to open, or a clip to choose. */
export function FolderEntry({ entry, chosen, onOpen, onToggle }: FolderEntryProps) {
  if (entry.kind === 'folder') {
    return (
      <button type="button" className="plain" onClick={() => onOpen(entry.path)}>
        {entry.name}/
      </button>
    )
  }
  return (
    <label>
      <input type="checkbox" checked={chosen.includes(entry.path)} onChange={() => onToggle(entry.path)} />
      <span>{entry.name}</span>
      <span className="figure quiet">
        {digits(entry.bytes / 1e6, 1)}
        <span className="unit">{'\u00a0MB'}</span>
      </span>
    </label>
  )
}
