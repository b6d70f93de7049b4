import type { FrameWindow } from '../../core/contract/bench.ts'
import { WhorlError } from '../../core/contract/problem.ts'
import { Children } from './children.ts'
import { type ClipIndex, readIndex, secondsOf } from './clip-index.ts'
import { Frames } from './frames.ts'
import { fileState } from './guard.ts'
import { IndexCache } from './index-cache.ts'
import { lumaFrames } from './luma-window.ts'
import type { JobOptions, LumaFrame, LumaOptions, Media, MediaOptions } from './media.ts'
import { probeClip } from './probe.ts'
import { findTools, type Tools } from './programs.ts'

const defaultBudgetBytes = 256 * 1024 * 1024

/** Opens clips; see `Media`. Programs are looked for at the first call. */
export function createMedia(options: MediaOptions = {}): Media {
  const children = new Children()
  const frames = new Frames(children, options.budgetBytes ?? defaultBudgetBytes)
  const indexes = new IndexCache(children)
  let found: Promise<Tools> | null = null

  const tools = () => {
    found ??= findTools(children, options.programs).catch(error => {
      found = null
      throw error
    })
    return found
  }

  const indexOf = async (path: string, job: JobOptions): Promise<ClipIndex> => {
    children.check(job.signal, 'Opening the clip')
    const { key } = await fileState(path)
    return indexes.get(key, job, async () => readIndex(children, await tools(), path, job))
  }

  return {
    programs: async () => {
      const { ffmpeg, ffprobe } = await tools()
      return { ffmpeg, ffprobe }
    },
    probe: async (path, job = {}) => probeClip(children, await tools(), await indexOf(path, job), job),
    timestamps: async (path, job = {}) => secondsOf(await indexOf(path, job)),
    frame: async (path, frame, job = {}) => {
      const index = await indexOf(path, job)
      checkInside(index, frame)
      return frames.frame(await tools(), index, frame, job)
    },
    prepare: async (path, window, job = {}) => {
      const index = await indexOf(path, job)
      checkWindow(index, window)
      return frames.prepare(await tools(), index, window, job)
    },
    async *lumaWindow(path: string, window: FrameWindow, job: LumaOptions = {}): AsyncGenerator<LumaFrame> {
      const index = await indexOf(path, job)
      checkWindow(index, window)
      yield* lumaFrames(children, await tools(), index, window, job)
    },
    close: async () => {
      frames.clear()
      indexes.clear()
      await children.close()
    },
  }
}

function checkWindow(index: ClipIndex, { fromFrame, toFrame }: FrameWindow): void {
  if (toFrame < fromFrame) throw new WhorlError('window-empty', { fromFrame, toFrame })
  checkInside(index, fromFrame)
  checkInside(index, toFrame)
}

function checkInside({ pts }: ClipIndex, frame: number): void {
  if (Number.isInteger(frame) && frame >= 0 && frame < pts.length) return
  throw new WhorlError('frame-outside-clip', { frame, frames: pts.length })
}
