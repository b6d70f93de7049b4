import type { FrameWindow } from '../../core/contract/bench.ts'
import { WhorlError } from '../../core/contract/problem.ts'
import type { Decoded } from './decode.ts'
import type { Loan } from './picture-cache.ts'

/** Where pictures go: each is put there first, then lent to those who wait for it. */
export type Shelf = { put(decoded: Decoded): void; lend(frame: number): Loan }
type Waiter = {
  frame: number
  resolve: (loan: Loan) => void
  reject: (error: unknown) => void
  forget: () => void
}

/** Stands for "when all is done" where a frame is waited for. */
const atEnd = Number.POSITIVE_INFINITY
const nothing: Loan = { data: new Uint8Array(), done: () => {} }

/**
 * One running decoder and all who wait for a picture of it. It ends by itself when nobody waits any more,
 * unless it is left to read ahead.
 */
export class DecodeJob {
  readonly ended: Promise<void>
  #controller = new AbortController()
  #waiters = new Set<Waiter>()
  #next: number
  #over = false

  constructor(
    readonly key: string,
    readonly path: string,
    readonly window: FrameWindow,
    pictures: (signal: AbortSignal) => AsyncIterable<Decoded>,
    shelf: Shelf,
  ) {
    this.#next = window.fromFrame
    this.ended = this.#run(pictures(this.#controller.signal), shelf)
    // Whoever waits hears of a failure; one that reads ahead for nobody fails in silence.
    this.ended.catch(() => {})
  }

  get idle(): boolean {
    return this.#waiters.size === 0
  }

  willGive(key: string, frame: number): boolean {
    return !this.#over && key === this.key && frame >= this.#next && frame <= this.window.toFrame
  }

  /** A picture that is still to come, as the shelf lends it. */
  wait(frame: number, signal: AbortSignal | undefined): Promise<Loan> {
    return this.#join(frame, signal)
  }

  /** Until all that can be decoded of the window has been given. */
  async untilEnd(signal: AbortSignal | undefined): Promise<void> {
    await this.#join(atEnd, signal)
  }

  #join(frame: number, signal: AbortSignal | undefined): Promise<Loan> {
    return new Promise((resolve, reject) => {
      const leave = () => {
        this.#settle(
          w => w === waiter,
          w => w.reject(new WhorlError('cancelled', { what: 'Decoding' })),
        )
        if (this.idle) this.stop()
      }
      const forget = () => signal?.removeEventListener('abort', leave)
      const waiter: Waiter = { frame, resolve, reject, forget }
      this.#waiters.add(waiter)
      signal?.addEventListener('abort', leave)
      if (signal?.aborted) leave()
    })
  }

  stop(): void {
    this.#over = true
    this.#controller.abort()
  }

  async #run(pictures: AsyncIterable<Decoded>, shelf: Shelf): Promise<void> {
    try {
      for await (const decoded of pictures) {
        this.#next = decoded.frame + 1
        shelf.put(decoded)
        this.#settle(
          w => w.frame === decoded.frame,
          w => w.resolve(shelf.lend(decoded.frame)),
        )
      }
      this.#settle(
        w => w.frame === atEnd,
        w => w.resolve(nothing),
      )
      this.#settle(
        () => true,
        w => w.reject(this.#missing(w.frame)),
      )
    } catch (error) {
      this.#settle(
        () => true,
        w => w.reject(error),
      )
      throw error
    } finally {
      this.#over = true
    }
  }

  #settle(which: (waiter: Waiter) => boolean, how: (waiter: Waiter) => void): void {
    for (const waiter of this.#waiters) {
      if (!which(waiter)) continue
      this.#waiters.delete(waiter)
      waiter.forget()
      how(waiter)
    }
  }

  #missing(frame: number): WhorlError {
    return new WhorlError('ffmpeg-failed', { path: this.path, what: `frame ${frame} holds no picture` })
  }
}
