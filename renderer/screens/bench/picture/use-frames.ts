import { createContext, useContext, useEffect, useState } from 'react'
import type { Host } from '../../../../core/contract/calls.ts'
import { FrameCache } from './frame-cache.ts'
import { bitmapOf, type Pictured, picturedOf } from './pictured.ts'

/**
 * The decoded pictures of the clip on the bench: those near the frame that is looked at in full size, and
 * small ones for the parts of the strip that there is no memory for.
 */
export type ClipFrames = { near: FrameCache<Pictured>; far: FrameCache<ImageBitmap>; close(): void }

const FramesContext = createContext<ClipFrames | null>(null)
export const FramesProvider = FramesContext.Provider

export function useFrames(): ClipFrames {
  const frames = useContext(FramesContext)
  if (!frames) throw new Error('A picture was drawn outside FramesProvider.')
  return frames
}

/** Memory for full pictures, bytes of RGBA. */
const memoryBytes = 400 * 2 ** 20
const farWidthPx = 320
const farRoom = 200

export function framesOf(
  host: Host,
  clipId: string,
  picture: { widthPx: number; heightPx: number },
): ClipFrames {
  const room = Math.floor(memoryBytes / (4 * picture.widthPx * picture.heightPx))
  const near = new FrameCache(
    async (frame, signal) => picturedOf(await host.frame(clipId, frame, { signal })),
    Math.min(Math.max(room, 12), 600),
  )
  const far = new FrameCache(
    async (frame, signal) => bitmapOf(await host.frame(clipId, frame, { maxWidthPx: farWidthPx, signal })),
    farRoom,
    1,
  )
  const close = () => {
    near.close()
    far.close()
  }
  return { near, far, close }
}

/** True once the picture of a frame is at hand; the reason when it cannot be had. */
export function useFrameState(frame: number): { ready: boolean; failure: unknown } {
  const { near } = useFrames()
  const [, setTurn] = useState(0)
  useEffect(() => near.onChange(() => setTurn(turn => turn + 1)), [near])
  return { ready: near.get(frame) !== null, failure: near.failure(frame) }
}
