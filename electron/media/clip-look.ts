import { type Between, betweenOf, mixedFrames } from './blends.ts'
import { flickerOf, lightChanges } from './brightness.ts'
import { viewMove } from './moving-view.ts'
import { changeBetween } from './picture-change.ts'

/** What the pictures themselves show, places counted in the order in which they were decoded. */
export type Looks = {
  /** How much each differs from the one before, see `changeBetween`. */
  changes: number[]
  mixed: number[]
  /** Part of all pixels that changed from their picture to the next. */
  movedPart: number
  /** Share by which the light changes from picture to picture. */
  flicker: number
  /** The farthest that the view moved within a few frames, as a part of the picture's width. */
  viewMoved: number
}

/** So many frames apart the view is compared: the one for shaking, the other for a slow drift. */
const viewEvery = [3, 12]
/** So many frames to either side a picture is compared with, for a mix of real ones far apart. */
const farthest = 2
/** Grey levels: a pixel that changes by more shows movement rather than noise. */
const movement = 12

/** Looks at a clip's small grey pictures one after the other; keeps a few of them at a time. */
export class ClipLook {
  readonly #changes: number[] = []
  readonly #between: Between[] = []
  readonly #light: number[][] = []
  /** The last few pictures, the newest last. */
  readonly #near: Uint8Array[] = []
  readonly #views: Uint8Array[] = []
  #viewMoved = 0
  #moved = 0
  constructor(readonly widthPx: number) {}

  get seen(): number {
    return this.#changes.length
  }

  see(picture: Uint8Array): void {
    const last = this.#near.at(-1)
    viewEvery.forEach((every, i) => {
      if (this.seen % every === 0) this.#lookAtView(i, picture)
    })
    this.#changes.push(last ? changeBetween(last, picture, this.widthPx) : 0)
    if (last) {
      this.#moved += movedPixels(last, picture) / picture.length
      this.#light.push(lightChanges(last, picture, this.widthPx))
    }
    this.#near.push(picture)
    if (this.#near.length > 2 * farthest + 1) this.#near.shift()
    if (this.#near.length === 2 * farthest + 1) this.#between.push(this.#lookBetween())
  }

  looks(): Looks {
    return {
      changes: this.#changes,
      mixed: mixedFrames(this.#between).map(i => i + farthest),
      movedPart: this.#moved / Math.max(this.seen - 1, 1),
      flicker: flickerOf(this.#light),
      viewMoved: this.#viewMoved,
    }
  }

  /** Of the picture in the middle of the near ones. */
  #lookBetween(): Between {
    const found = Array.from({ length: farthest }, (_, i) =>
      betweenOf(this.#near[farthest - 1 - i]!, this.#near[farthest]!, this.#near[farthest + 1 + i]!),
    )
    return found.find(one => one === 'mixed') ?? found.find(one => one === 'moved') ?? 'still'
  }

  #lookAtView(i: number, picture: Uint8Array): void {
    const before = this.#views[i]
    const moved = before && viewMove(before, picture, this.widthPx)
    if (moved) this.#viewMoved = Math.max(this.#viewMoved, moved / this.widthPx)
    this.#views[i] = picture
  }
}

function movedPixels(before: Uint8Array, after: Uint8Array): number {
  let moved = 0
  for (let i = 0; i < after.length; i++) if (Math.abs(after[i]! - before[i]!) > movement) moved++
  return moved
}
