import type { Picture } from './pixel-pipe.ts'

/** Smaller pictures lie in ordinary memory. */
const leastBytes = 256 * 1024
const pageBytes = 64 * 1024

/**
 * Memory for large pictures, all of one size at a time, used again and again.
 *
 * Starting a program marks all ordinary memory of this process as shared with it, and every page written
 * afterwards is copied first (`fork`), which can take longer than decoding into it. WebAssembly's memory is kept
 * out of that. It is also got from the system once only.
 */
export class Arena {
  #memory: WebAssembly.Memory | null = null
  #slotBytes = 0
  #slots = 0
  #free: Picture[] = []

  /** `bytes` are set aside when the first large picture comes, with room for a few that are under way. */
  constructor(readonly bytes: number) {}

  /** Memory for one picture; ordinary memory where the arena has none of that size. */
  take(pictureBytes: number): Picture {
    if (pictureBytes >= leastBytes && pictureBytes !== this.#slotBytes && this.#free.length === this.#slots)
      this.#cut(pictureBytes)
    const slot = pictureBytes === this.#slotBytes ? this.#free.pop() : undefined
    return slot ?? new Uint8Array(pictureBytes)
  }

  /** Takes back what `take` gave and nobody reads any more. */
  give(picture: Picture): void {
    if (picture.buffer === this.#memory?.buffer) this.#free.push(picture)
  }

  #cut(slotBytes: number): void {
    this.#memory ??= memoryOf(this.bytes + 5 * slotBytes)
    const buffer = this.#memory?.buffer
    this.#slots = Math.floor((buffer?.byteLength ?? 0) / slotBytes)
    this.#slotBytes = slotBytes
    this.#free = Array.from(
      { length: this.#slots },
      (_, i) => new Uint8Array(buffer!, i * slotBytes, slotBytes),
    )
  }
}

/** Null where the system does not grant that much in one piece: ordinary memory serves then. */
function memoryOf(bytes: number): WebAssembly.Memory | null {
  const pages = Math.ceil(bytes / pageBytes)
  try {
    return new WebAssembly.Memory({ initial: pages, maximum: pages })
  } catch {
    return null
  }
}
