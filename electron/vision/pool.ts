import { availableParallelism } from 'node:os'
import { join } from 'node:path'
import { Worker } from 'node:worker_threads'
import { WhorlError } from '../../core/contract/problem.ts'
import { places } from '../service/places.ts'
import type { Done, JobName, Jobs, Order } from './jobs.ts'

type Waiting = {
  order: Order
  resolve: (gives: Done) => void
  reject: (error: unknown) => void
  hasFailed: boolean
  isCancelled: boolean
}
type Hand = { worker: Worker; at: Waiting | null; trouble: string }

export type PoolOptions = { workers?: number; start?: () => Worker }

/**
 * Workers that look at pixels, as many as the machine has cores; each is started when first needed. When one
 * dies its order is given to another once, then told as `worker-died`. Orders that are cancelled while waiting
 * are dropped, while running their worker is stopped. Pixels are lent to the workers (`sharedBytes`), so that
 * an order can be given a second time without a second copy.
 */
export class Pool {
  readonly size: number
  #start: () => Worker
  #hands: Hand[] = []
  #queue: Waiting[] = []
  #next = 1
  #closed = false

  constructor({ workers, start }: PoolOptions = {}) {
    this.size = Math.max(1, workers ?? availableParallelism())
    this.#start = start ?? (() => new Worker(join(places.program, 'dist', 'host', 'vision.worker.js')))
  }

  async run<N extends JobName>(
    name: N,
    asks: Jobs[N]['asks'],
    signal?: AbortSignal,
  ): Promise<Jobs[N]['gives']> {
    if (signal?.aborted || this.#closed) throw cancelled()
    const order = { id: this.#next++, name, asks } as Order
    let leave = () => {}
    const done = await new Promise<Done>((resolve, reject) => {
      const waiting: Waiting = { order, resolve, reject, hasFailed: false, isCancelled: false }
      leave = () => {
        waiting.isCancelled = true
        reject(cancelled())
        this.#queue = this.#queue.filter(one => one !== waiting)
        void this.#hands.find(one => one.at === waiting)?.worker.terminate()
      }
      signal?.addEventListener('abort', leave)
      this.#queue.push(waiting)
      this.#serve()
    }).finally(() => signal?.removeEventListener('abort', leave))
    if ('failed' in done) throw new WhorlError('internal', { what: done.failed })
    return done.gives as Jobs[N]['gives']
  }

  async close(): Promise<void> {
    this.#closed = true
    for (const { reject } of this.#queue.splice(0)) reject(cancelled())
    await Promise.all(this.#hands.map(({ worker }) => worker.terminate()))
  }

  #serve(): void {
    while (this.#queue.length > 0) {
      const hand = this.#hands.find(one => one.at === null) ?? this.#hire()
      if (!hand) return
      const waiting = this.#queue.shift()!
      hand.at = waiting
      hand.worker.ref()
      hand.worker.postMessage(waiting.order)
    }
  }

  #hire(): Hand | null {
    if (this.#hands.length >= this.size) return null
    const hand: Hand = { worker: this.#start(), at: null, trouble: 'a worker ended before its time' }
    this.#hands.push(hand)
    hand.worker.on('message', (done: Done) => {
      const waiting = hand.at
      hand.at = null
      // A worker with nothing to do keeps no program from ending.
      hand.worker.unref()
      waiting?.resolve(done)
      this.#serve()
    })
    hand.worker.on('error', error => {
      hand.trouble = error.message
    })
    hand.worker.on('exit', () => {
      this.#hands = this.#hands.filter(one => one !== hand)
      if (hand.at) this.#lost(hand.at, hand.trouble)
      if (!this.#closed) this.#serve()
    })
    return hand
  }

  #lost(waiting: Waiting, what: string): void {
    if (waiting.isCancelled) return
    if (this.#closed) waiting.reject(cancelled())
    else if (waiting.hasFailed) waiting.reject(new WhorlError('worker-died', { what }))
    else {
      waiting.hasFailed = true
      this.#queue.unshift(waiting)
    }
  }
}

const cancelled = () => new WhorlError('cancelled', { what: 'Reading the clip' })
