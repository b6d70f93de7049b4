import type { FrameWindow } from '../../core/contract/bench.ts'
import { WhorlError } from '../../core/contract/problem.ts'
import type { Children } from './children.ts'
import type { ClipIndex } from './clip-index.ts'
import { inputArguments } from './guard.ts'
import { labelFilter, labelOf, quietly } from './labels.ts'
import { openPixelPipe, type Picture, type PixelPipe } from './pixel-pipe.ts'
import type { Tools } from './programs.ts'
import { Queue } from './queue.ts'
import { maxSilentSeconds, watchSilence } from './silence.ts'

export type Decoded = { frame: number; data: Picture }
export type Decoding = {
  /** What is done with each picture after it is decoded; gives pictures of the size that `room` hands out. */
  filters: readonly string[]
  room: () => Picture
  /** Takes back rooms that were not needed; those of the pictures given belong to who got them. */
  spare: (picture: Picture) => void
  signal?: AbortSignal
}

/**
 * The pictures of a window, in order, each known by its own time: what is missing in a damaged clip is left
 * out, never shifted. Decoding begins at the key picture before the window; should that turn out too late
 * (containers differ in what they call a key), it begins again further ahead, at last at the clip's start.
 * Throws ffmpeg-failed when nothing of the window can be decoded, or cancelled.
 */
export async function* decode(
  children: Children,
  tools: Tools,
  index: ClipIndex,
  window: FrameWindow,
  decoding: Decoding,
): AsyncGenerator<Decoded> {
  const starts = startingPoints(index, window.fromFrame)
  for (const [attempt, start] of starts.entries()) {
    const last = attempt === starts.length - 1
    const run = new DecodingRun(children, tools, index, window, start, decoding)
    let accepted = false
    try {
      for await (const decoded of run.pictures()) {
        if (!accepted && !last && decoded.frame > window.fromFrame) {
          decoding.spare(decoded.data)
          break
        }
        accepted = true
        yield decoded
      }
      if (run.isSilent || (last && !accepted)) throw await run.failure()
      if (accepted) return
    } finally {
      run.stop()
    }
  }
}

/** Seconds by which some builds seek ahead of the time they are told: 3/23, see ffmpeg's `open_input_file`. */
const seeksAhead = 0.14

/**
 * Times to seek to, in seconds, best first; null is the clip's start. They lie behind the key picture that is
 * meant, because some builds land before the time they are told, and well before the next one.
 */
function startingPoints(
  { pts, keys, header: { timeBase } }: ClipIndex,
  fromFrame: number,
): (number | null)[] {
  const tickSeconds = timeBase.num / timeBase.den
  const before = keys.filter(key => key <= pts[fromFrame]!).length
  const seeks = [before - 1, before - 2].filter(i => i > 0)
  return [
    ...seeks.map(i => {
      const halfway = ((keys[i + 1] ?? Number.POSITIVE_INFINITY) - keys[i]!) / 2
      return (keys[i]! + Math.max(0.5, Math.min(halfway, seeksAhead / tickSeconds))) * tickSeconds
    }),
    null,
  ]
}

class DecodingRun {
  #labels = new Queue<number>()
  #stop = () => {}
  #end = () => {}
  isSilent = false
  #complaint = Promise.resolve('')
  constructor(
    readonly children: Children,
    readonly tools: Tools,
    readonly index: ClipIndex,
    readonly window: FrameWindow,
    readonly startSeconds: number | null,
    readonly decoding: Decoding,
  ) {}

  async *pictures(): AsyncGenerator<Decoded> {
    const { signal, room } = this.decoding
    this.children.check(signal, 'Decoding')
    const pipe = await openPixelPipe(room)
    const running = this.children.start(this.tools.ffmpeg.path, this.#arguments(), {
      signal,
      stdio: pipe.stdio,
      onLine: line => this.#label(line),
    })
    pipe.attach(running.child)
    this.#end = running.stop
    this.#stop = () => {
      running.stop()
      pipe.close(this.decoding.spare)
    }
    this.#complaint = running.ended.then(({ complaint }) => {
      this.#labels.end()
      return complaint
    })
    const place = placer(this.index.pts, this.window)
    for (let data = await this.#taken(pipe); data; data = await this.#taken(pipe)) {
      const label = await this.#labels.take()
      this.children.check(signal, 'Decoding')
      const frame = label === undefined ? undefined : place(label)
      if (frame === undefined) this.decoding.spare(data)
      else yield { frame, data }
    }
    await this.#complaint
    this.children.check(signal, 'Decoding')
  }

  stop(): void {
    this.#stop()
  }

  /** The next picture. A decoder that gives none while one is waited for is stopped, and that is its failure. */
  async #taken(pipe: PixelPipe): Promise<Picture | undefined> {
    const silence = watchSilence(() => {
      this.isSilent = true
      this.#end()
    })
    try {
      return await pipe.take()
    } finally {
      silence.end()
    }
  }

  async failure(): Promise<WhorlError> {
    const { fromFrame, toFrame } = this.window
    const silent = this.isSilent ? `it gave no picture for ${maxSilentSeconds} s` : ''
    const what = silent || (await this.#complaint) || `frames ${fromFrame} to ${toFrame} hold no picture`
    return new WhorlError('ffmpeg-failed', { path: this.index.file.path, what })
  }

  #label(line: string): boolean {
    const label = labelOf(line)
    if (label !== null) this.#labels.push(label)
    return label !== null
  }

  #arguments(): string[] {
    const { file, header, pts } = this.index
    const { fromFrame, toFrame } = this.window
    const seek = (seconds: number) => ['-noaccurate_seek', '-seek_timestamp', '1', '-ss', seconds.toFixed(6)]
    const trim = `trim=start_pts=${pts[fromFrame]}:end_pts=${pts[toFrame]! + 1}`
    return [
      ...quietly,
      ...(this.startSeconds === null ? [] : seek(this.startSeconds)),
      '-noautorotate',
      ...inputArguments(file),
      ...['-map', `0:${header.stream}`, '-vf', [trim, labelFilter, ...this.decoding.filters].join(',')],
      ...this.tools.everyFrame,
      ...['-f', 'rawvideo', 'pipe:1'],
    ]
  }
}

/** Finds a picture's place by its time; pictures of one and the same time follow one another. */
export function placer(
  pts: readonly number[],
  { fromFrame, toFrame }: FrameWindow,
): (label: number) => number | undefined {
  let next = fromFrame
  while (next > 0 && pts[next - 1] === pts[fromFrame]) next--
  return label => {
    while (next <= toFrame && pts[next]! < label) next++
    if (next > toFrame || pts[next] !== label) return undefined
    return next++ < fromFrame ? undefined : next - 1
  }
}
