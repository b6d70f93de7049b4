import { WhorlError } from '../../core/contract/problem.ts'
import type { Children } from './children.ts'
import type { ClipIndex } from './clip-index.ts'
import type { JobOptions } from './media.ts'

/** Lists of frame times kept in memory; one of an hour at 240 fps takes 14 MB. */
const maxIndexes = 8

/** Each clip's list of frames, read once however many ask for it at the same time. */
export class IndexCache {
  #indexes = new Map<string, ClipIndex>()
  #reading = new Map<string, Promise<ClipIndex>>()
  constructor(readonly children: Children) {}

  async get(key: string, { signal }: JobOptions, read: () => Promise<ClipIndex>): Promise<ClipIndex> {
    const known = this.#indexes.get(key)
    if (known) return this.#keep(key, known)
    const running = this.#reading.get(key)
    if (!running) return this.#keep(key, await this.#read(key, read))
    // When the one who began it cancels, those who wait begin again.
    const index = await running.catch(error => {
      this.children.check(signal, 'Opening the clip')
      if (error instanceof WhorlError && error.code === 'cancelled') return this.get(key, { signal }, read)
      throw error
    })
    this.children.check(signal, 'Opening the clip')
    return index
  }

  clear(): void {
    this.#indexes.clear()
  }

  #read(key: string, read: () => Promise<ClipIndex>): Promise<ClipIndex> {
    const reading = read().finally(() => this.#reading.delete(key))
    this.#reading.set(key, reading)
    return reading
  }

  #keep(key: string, index: ClipIndex): ClipIndex {
    this.#indexes.delete(key)
    this.#indexes.set(key, index)
    for (const oldest of [...this.#indexes.keys()].slice(0, -maxIndexes)) this.#indexes.delete(oldest)
    return index
  }
}
