import './picture.css'
import { useEffect, useRef, useState } from 'react'
import { useHost } from '../host/host.ts'
import { paintPicture } from './paint-picture.ts'

/** `name` is for ears; a picture beside its own name needs none. */
type PictureProps = { clipId: string; frame: number; maxWidthPx: number; name?: string }

/** One frame of a clip, small, fetched when it scrolls into view. */
export function Picture({ clipId, frame, maxWidthPx, name }: PictureProps) {
  const host = useHost()
  const canvas = useRef<HTMLCanvasElement>(null)
  const [near, setNear] = useState(false)
  const [shown, setShown] = useState<'waiting' | 'shown' | 'none'>('waiting')

  useEffect(() => {
    if (!canvas.current) return
    const watch = new IntersectionObserver(seen => seen.some(each => each.isIntersecting) && setNear(true), {
      rootMargin: '200px',
    })
    watch.observe(canvas.current)
    return () => watch.disconnect()
  }, [])

  useEffect(() => {
    if (!near) return
    const abort = new AbortController()
    host.frame(clipId, frame, { maxWidthPx, signal: abort.signal }).then(
      picture => {
        if (abort.signal.aborted || !canvas.current) return
        paintPicture(canvas.current, picture)
        setShown('shown')
      },
      () => !abort.signal.aborted && setShown('none'),
    )
    return () => abort.abort()
  }, [host, clipId, frame, maxWidthPx, near])

  return (
    <canvas
      ref={canvas}
      className="picture"
      {...(name ? { role: 'img', 'aria-label': name } : { 'aria-hidden': true })}
      data-shown={shown}
    />
  )
}
