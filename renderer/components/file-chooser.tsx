import { useEffect, useState } from 'react'
import type { CallInput } from '../../core/contract/calls.ts'
import type { Problem } from '../../core/contract/problem.ts'
import { problemShown, useHost } from '../host/host.ts'
import { FileBrowser } from './file-browser.tsx'
import { ProblemNote } from './problem-note.tsx'

type FileChooserProps = {
  purpose: CallInput<'files.pick'>['purpose']
  /** One file instead of many. */
  single?: boolean
  verb: string
  onChosen: (paths: string[]) => void
  onCancel: () => void
}

/** Asks for files: the system's own dialog where the shell has one, else a folder browser in place. */
export function FileChooser({ purpose, single = false, verb, onChosen, onCancel }: FileChooserProps) {
  const host = useHost()
  const [inPage, setInPage] = useState(false)
  const [problem, setProblem] = useState<Problem | null>(null)

  // biome-ignore lint/correctness/useExhaustiveDependencies: the dialog opens once, when the chooser appears.
  useEffect(() => {
    let gone = false
    host.call('files.pick', { purpose }).then(
      paths => {
        if (gone) return
        if (paths === null) setInPage(true)
        else if (paths.length === 0) onCancel()
        else onChosen(single ? paths.slice(0, 1) : paths)
      },
      thrown => !gone && setProblem(problemShown(thrown)),
    )
    return () => {
      gone = true
    }
  }, [host, purpose])

  if (problem) return <ProblemNote problem={problem} onForget={onCancel} />
  return inPage ? (
    <FileBrowser purpose={purpose} single={single} verb={verb} onChosen={onChosen} onCancel={onCancel} />
  ) : null
}
