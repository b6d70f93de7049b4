/** Values that arrive by themselves, taken one by one in order; after `end` what is left can still be taken. */
export class Queue<T> {
  #items: T[] = []
  #takers: ((value: T | undefined) => void)[] = []
  #ended = false

  get length(): number {
    return this.#items.length
  }

  push(item: T): void {
    const taker = this.#takers.shift()
    if (taker) taker(item)
    else if (!this.#ended) this.#items.push(item)
  }

  /** No more will come: who waits gets undefined. */
  end(): void {
    this.#ended = true
    for (const taker of this.#takers.splice(0)) taker(undefined)
  }

  /** All that wait to be taken, at once. */
  drain(): T[] {
    return this.#items.splice(0)
  }

  /** The next value, as soon as there is one; undefined when none will come. */
  take(): Promise<T | undefined> {
    if (this.#items.length > 0) return Promise.resolve(this.#items.shift())
    if (this.#ended) return Promise.resolve(undefined)
    return new Promise(resolve => this.#takers.push(resolve))
  }
}
