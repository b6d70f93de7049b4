import type { FrameWindow } from '../../core/contract/bench.ts'
import type { Children } from './children.ts'
import type { ClipIndex } from './clip-index.ts'
import { decode } from './decode.ts'
import { DecodeJob } from './decode-job.ts'
import { fittedSize, pictureFilters, type Size } from './filters.ts'
import type { LentPicture, PictureOptions } from './media.ts'
import { PictureCache } from './picture-cache.ts'
import type { Picture } from './pixel-pipe.ts'
import { missingAhead, runAround, type Walk, walked } from './plan-run.ts'
import type { Tools } from './programs.ts'
import { throttled } from './throttled.ts'

/** One clip at one size, as the cache knows it. */
type Reel = { index: ClipIndex; size: Size; key: string; pictureBytes: number; runFrames: number }

const maxRunFrames = 120

/** Pictures of clips: from memory when they are there, else decoded with their neighbours. */
export class Frames {
  #cache: PictureCache
  #jobs = new Set<DecodeJob>()
  #walks = new Map<string, Walk>()
  constructor(
    readonly children: Children,
    budgetBytes: number,
  ) {
    this.#cache = new PictureCache(budgetBytes)
  }

  async frame(tools: Tools, index: ClipIndex, frame: number, options: PictureOptions): Promise<LentPicture> {
    const reel = this.#reel(index, options.maxWidthPx)
    const walk = walked(this.#walks.get(reel.key), frame, reel.runFrames)
    this.#walks.set(reel.key, walk)
    const there = this.#cache.lend(reel.key, frame, reel.pictureBytes)
    const loan = there ?? (await this.#missed(tools, reel, walk).wait(frame, options.signal))
    this.#readAhead(tools, reel, walk)
    return { ...reel.size, ...loan }
  }

  async prepare(tools: Tools, index: ClipIndex, window: FrameWindow, options: PictureOptions): Promise<void> {
    const { signal } = options
    const reel = this.#reel(index, options.maxWidthPx)
    const isThere = this.#isThere(reel)
    const toFrame = Math.min(window.toFrame, window.fromFrame + this.#cache.capacity(reel.pictureBytes) - 1)
    let from = window.fromFrame
    while (from <= toFrame && isThere(from)) from++
    if (from > toFrame) return
    this.#stopIdle()
    const report = throttled(options.progress)
    const total = toFrame - from + 1
    const job = this.#start(tools, reel, { fromFrame: from, toFrame }, frame =>
      report({ what: 'Decoding', done: frame - from + 1, total }),
    )
    await job.untilEnd(signal)
  }

  /** Stops decoding for pictures that are no longer wanted and forgets those there are. */
  clear(): void {
    for (const job of this.#jobs) job.stop()
    this.#cache.clear()
    this.#walks.clear()
  }

  #reel(index: ClipIndex, maxWidthPx: number | undefined): Reel {
    const size = fittedSize(index.header, maxWidthPx)
    const pictureBytes = (size.widthPx * size.heightPx * 3) / 2
    // Half of what memory holds, so that the half just seen stays while the next is decoded.
    const runFrames = Math.min(maxRunFrames, Math.max(1, this.#cache.capacity(pictureBytes) >> 1))
    return { index, size, pictureBytes, runFrames, key: `${index.file.key}\n${size.widthPx}` }
  }

  #isThere(reel: Reel): (frame: number) => boolean {
    return frame => this.#cache.has(reel.key, frame, reel.pictureBytes)
  }

  #missed(tools: Tools, reel: Reel, { frame, direction }: Walk): DecodeJob {
    for (const job of this.#jobs) if (job.willGive(reel.key, frame)) return job
    this.#stopIdle()
    const { length } = reel.index.pts
    return this.#start(tools, reel, runAround(frame, direction, reel.runFrames, length, this.#isThere(reel)))
  }

  #readAhead(tools: Tools, reel: Reel, walk: Walk): void {
    const { length } = reel.index.pts
    const next = missingAhead(walk, reel.runFrames >> 1, length, this.#isThere(reel))
    if (next === null || this.#jobs.size > 0) return
    this.#start(tools, reel, runAround(next, walk.direction, reel.runFrames, length, this.#isThere(reel)))
  }

  #start(tools: Tools, reel: Reel, window: FrameWindow, onFrame?: (frame: number) => void): DecodeJob {
    const filters = pictureFilters(reel.index.header, reel.size)
    const room = () => this.#cache.room(reel.pictureBytes)
    const spare = (picture: Picture) => this.#cache.spare(picture)
    const job = new DecodeJob(
      reel.key,
      reel.index.file.path,
      window,
      signal => decode(this.children, tools, reel.index, window, { filters, room, spare, signal }),
      {
        put: ({ frame, data }) => {
          this.#cache.put(reel.key, frame, data)
          onFrame?.(frame)
        },
        lend: frame => this.#cache.lend(reel.key, frame, reel.pictureBytes)!,
      },
    )
    this.#jobs.add(job)
    const over = () => void this.#jobs.delete(job)
    job.ended.then(over, over)
    return job
  }

  #stopIdle(): void {
    for (const job of this.#jobs) if (job.idle) job.stop()
  }
}
