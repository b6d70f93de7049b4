import type { PublishedFile, Theme } from '../../../core/contract/publish.ts'
import { fileOf, useAddress } from './published-bytes.ts'

type ShownPictureProps = { file: PublishedFile; paper: Theme; words: string }

/** A picture as its file shows it. It can be dragged out into another program. */
export function ShownPicture({ file, paper, words }: ShownPictureProps) {
  const address = useAddress(file)
  if (address === null) return null
  return (
    <div className="publish-sheet" data-paper={paper}>
      <img
        src={address}
        alt={words}
        draggable
        onDragStart={event => {
          event.dataTransfer.effectAllowed = 'copy'
          event.dataTransfer.items.add(fileOf(file))
          // what desktops and file managers take; Chromium's own form
          event.dataTransfer.setData('DownloadURL', `${file.mediaType}:${file.name}:${address}`)
        }}
      />
    </div>
  )
}
