/** A picture that can be drawn and, when no longer needed, given back. */
type Closable = { close(): void }

/**
 * Decoded pictures of one clip, least recently used out first, with those ahead loaded before they are
 * asked for. `want` says which, most wanted first; `get` answers at once or with null, and `onChange`
 * tells when that could have changed.
 */
export class FrameCache<Picture extends Closable> {
  readonly #pictures = new Map<number, Picture>()
  readonly #loading = new Map<number, AbortController>()
  readonly #failed = new Map<number, unknown>()
  readonly #listeners = new Set<() => void>()
  #wanted: number[] = []
  #closed = false

  constructor(
    private readonly load: (frame: number, signal: AbortSignal) => Promise<Picture>,
    readonly room: number,
    private readonly parallel = 3,
  ) {}

  get(frame: number): Picture | null {
    const picture = this.#pictures.get(frame)
    if (picture === undefined) return null
    this.#pictures.delete(frame)
    this.#pictures.set(frame, picture)
    return picture
  }

  /** Why a frame has no picture, if it was tried and failed since the most wanted one last changed. */
  failure(frame: number): unknown {
    return this.#failed.get(frame) ?? null
  }

  want(frames: readonly number[]): void {
    if (frames[0] !== this.#wanted[0]) this.#failed.clear()
    this.#wanted = [...new Set(frames)].slice(0, this.room)
    const wanted = new Set(this.#wanted)
    for (const [loading, abort] of this.#loading) {
      if (!wanted.has(loading)) abort.abort()
    }
    this.#fill()
  }

  onChange(listener: () => void): () => void {
    this.#listeners.add(listener)
    return () => this.#listeners.delete(listener)
  }

  close(): void {
    this.#closed = true
    this.#listeners.clear()
    for (const abort of this.#loading.values()) abort.abort()
    for (const picture of this.#pictures.values()) picture.close()
    this.#pictures.clear()
  }

  #fill(): void {
    for (const frame of this.#wanted) {
      if (this.#loading.size >= this.parallel) return
      if (!this.#pictures.has(frame) && !this.#loading.has(frame) && !this.#failed.has(frame)) {
        void this.#fetch(frame)
      }
    }
  }

  async #fetch(frame: number): Promise<void> {
    const abort = new AbortController()
    this.#loading.set(frame, abort)
    try {
      const picture = await this.load(frame, abort.signal)
      if (this.#closed || abort.signal.aborted) return picture.close()
      this.#pictures.set(frame, picture)
      this.#makeRoom()
    } catch (problem) {
      if (!abort.signal.aborted) this.#failed.set(frame, problem)
    } finally {
      this.#loading.delete(frame)
      if (!this.#closed) {
        for (const listener of this.#listeners) listener()
        this.#fill()
      }
    }
  }

  #makeRoom(): void {
    const wanted = new Set(this.#wanted)
    for (const [frame, picture] of this.#pictures) {
      if (this.#pictures.size <= this.room) return
      if (wanted.has(frame)) continue
      this.#pictures.delete(frame)
      picture.close()
    }
  }
}
