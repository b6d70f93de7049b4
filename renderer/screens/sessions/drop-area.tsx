import './drop-area.css'
import { useRef, useState } from 'react'

type DropAreaProps = { word: string; onDrop: (files: File[]) => void; children: React.ReactNode }

/** A whole screen that takes dropped files, and says so while they hover. */
export function DropArea({ word, onDrop, children }: DropAreaProps) {
  const [over, setOver] = useState(false)
  // Enter and leave come for every element crossed; only the outermost pair counts.
  const depth = useRef(0)
  const carriesFiles = (event: React.DragEvent) => event.dataTransfer.types.includes('Files')
  return (
    // biome-ignore lint/a11y/noStaticElementInteractions: a second way beside the button that chooses clips.
    <div
      className="drop-area"
      onDragEnter={event => {
        if (carriesFiles(event) && ++depth.current === 1) setOver(true)
      }}
      onDragOver={event => {
        if (carriesFiles(event)) event.preventDefault()
      }}
      onDragLeave={event => {
        if (carriesFiles(event) && --depth.current <= 0) setOver(false)
      }}
      onDrop={event => {
        if (!carriesFiles(event)) return
        event.preventDefault()
        depth.current = 0
        setOver(false)
        onDrop([...event.dataTransfer.files])
      }}
    >
      {children}
      {over && (
        <div className="drop-area-word" aria-hidden="true">
          {word}
        </div>
      )}
    </div>
  )
}
