import { FileChooser } from './file-chooser.tsx'

/** Chooses one folder of the machine; `onDone` closes it, whether one was chosen or not. */
export function FolderChooser({
  onFolder,
  onDone,
}: {
  onFolder: (path: string) => void
  onDone: () => void
}) {
  return (
    <FileChooser
      purpose="folder"
      single
      verb="Use this folder"
      onChosen={([path]) => {
        onDone()
        if (path) onFolder(path)
      }}
      onCancel={onDone}
    />
  )
}
