import { useEffect, useState } from 'react'
import type { StudyTask } from '../../../core/contract/study.ts'
import { useHost } from '../../host/host.ts'
import { FrameCache } from '../bench/picture/frame-cache.ts'
import { bitmapOf } from '../bench/picture/pictured.ts'

export type TaskPicture = { bitmap: ImageBitmap | null; failure: unknown }

/** Pictures ahead of the person, and a few behind for taking back. */
const ahead = 4
const room = 8

/** The picture of the task at a place, the next ones loaded before they are asked for. */
export function usePictures(tasks: readonly StudyTask[] | null, place: number): TaskPicture {
  const host = useHost()
  const [cache, setCache] = useState<FrameCache<ImageBitmap> | null>(null)
  const [, setTurn] = useState(0)

  useEffect(() => {
    if (tasks === null) return
    const made = new FrameCache(async (at, signal) => {
      const { clipId, frame } = tasks[at]!
      return bitmapOf(await host.frame(clipId, frame, { signal }))
    }, room)
    const stop = made.onChange(() => setTurn(turn => turn + 1))
    setCache(made)
    return () => {
      stop()
      made.close()
    }
  }, [host, tasks])

  useEffect(() => {
    const last = (tasks?.length ?? 0) - 1
    if (place <= last)
      cache?.want(Array.from({ length: Math.min(ahead, last - place + 1) }, (_, i) => place + i))
  }, [cache, tasks, place])

  return { bitmap: cache?.get(place) ?? null, failure: cache?.failure(place) ?? null }
}
