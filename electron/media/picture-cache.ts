import { Arena } from './arena.ts'
import type { Picture } from './pixel-pipe.ts'

/** A picture on loan: its memory stays as it is until `done` is said, or for ever. */
export type Loan = { data: Picture; done: () => void }

/**
 * Decoded pictures in memory, up to a number of bytes. They are kept and dropped by stretches of neighbouring
 * frames, the longest unused first, so that a walk through a clip keeps what lies ahead.
 */
export class PictureCache {
  #arena: Arena
  #stretches = new Map<string, Map<number, Picture>>()
  #heldBytes = 0
  /** How many have each picture on loan, and which of those are dropped already. */
  #readers = new WeakMap<Picture, number>()
  #dropped = new WeakSet<Picture>()

  constructor(readonly budgetBytes: number) {
    this.#arena = new Arena(budgetBytes)
  }

  /** How many pictures of this many bytes have room. */
  capacity(pictureBytes: number): number {
    return Math.max(1, Math.floor(this.budgetBytes / pictureBytes))
  }

  has(key: string, frame: number, pictureBytes: number): boolean {
    return this.#stretches.get(this.#idOf(key, frame, pictureBytes))?.has(frame) ?? false
  }

  /** The picture itself, not a copy. */
  lend(key: string, frame: number, pictureBytes: number): Loan | undefined {
    const id = this.#idOf(key, frame, pictureBytes)
    const stretch = this.#stretches.get(id)
    const data = stretch?.get(frame)
    if (!stretch || !data) return undefined
    this.#touch(id, stretch)
    this.#readers.set(data, (this.#readers.get(data) ?? 0) + 1)
    let reading = true
    const done = () => {
      if (reading) this.#endReading(data)
      reading = false
    }
    return { data, done }
  }

  /** Takes a picture over that was decoded into `room`. */
  put(key: string, frame: number, picture: Picture): void {
    const id = this.#idOf(key, frame, picture.length)
    const stretch = this.#stretches.get(id) ?? new Map<number, Picture>()
    const before = stretch.get(frame)
    if (before) this.#drop(before)
    stretch.set(frame, picture)
    this.#heldBytes += picture.length
    this.#touch(id, stretch)
    while (this.#heldBytes > this.budgetBytes && this.#stretches.size > 1) this.#dropOldest()
  }

  /** Memory to decode one picture into, to be handed to `put` or `spare`. */
  room(pictureBytes: number): Picture {
    return this.#arena.take(pictureBytes)
  }

  /** Takes back room that was not needed. */
  spare(picture: Picture): void {
    this.#arena.give(picture)
  }

  /** Forgets all; what is on loan stays as it is. */
  clear(): void {
    this.#stretches.clear()
    this.#arena = new Arena(this.budgetBytes)
    this.#heldBytes = 0
  }

  #idOf(key: string, frame: number, pictureBytes: number): string {
    const stretchFrames = Math.min(64, Math.ceil(this.capacity(pictureBytes) / 8))
    return `${key}\n${pictureBytes}\n${Math.floor(frame / stretchFrames)}`
  }

  #touch(id: string, stretch: Map<number, Picture>): void {
    this.#stretches.delete(id)
    this.#stretches.set(id, stretch)
  }

  #dropOldest(): void {
    const [id, stretch] = this.#stretches.entries().next().value!
    this.#stretches.delete(id)
    for (const picture of stretch.values()) this.#drop(picture)
  }

  #drop(picture: Picture): void {
    this.#heldBytes -= picture.length
    if (this.#readers.get(picture)) this.#dropped.add(picture)
    else this.#arena.give(picture)
  }

  #endReading(picture: Picture): void {
    const readers = (this.#readers.get(picture) ?? 0) - 1
    this.#readers.set(picture, readers)
    if (readers === 0 && this.#dropped.delete(picture)) this.#arena.give(picture)
  }
}
