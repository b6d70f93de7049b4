import type { Service } from '../../core/contract/calls.ts'
import type { LentPicture } from '../media/media.ts'
import type { Bus } from './bus.ts'

/** A file on its way in: its name as the page said it, and its bytes. */
export type Upload = { name: string; bytes: AsyncIterable<Uint8Array>; signal: AbortSignal }

/** The whole host behind either shell. A shell only carries it: what is asked, who may ask, how it travels. */
export type AppHost = {
  service: Service
  frame(
    clipId: string,
    frame: number,
    options: { maxWidthPx?: number; signal?: AbortSignal },
  ): Promise<LentPicture>
  /** Writes a dropped file into the folder `clips` beside the workspace and answers its path. */
  receive(upload: Upload): Promise<string>
  bus: Bus
  /** Stops every job and closes the workspace. */
  close(): Promise<void>
}
