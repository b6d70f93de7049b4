import type { CallContext } from '../../core/contract/calls.ts'
import type { ClipOrder } from '../../core/contract/publish.ts'
import { clipPace, paceNote } from '../../core/picture/clip-pace.ts'
import type { Media } from '../media/media.ts'
import { clipDrawing } from './clip-drawing.ts'
import { encode } from './encode.ts'
import type { HitEvidence } from './hit-evidence.ts'
import type { Canvas } from './i420-canvas.ts'

/** The hit slowed down, each frame with its marks, as a film. Throws `hit-no-outline`, `cancelled`. */
export async function hitClip(
  media: Media,
  hit: HitEvidence,
  order: ClipOrder,
  { signal, progress }: CallContext,
): Promise<{ film: Buffer; note: string | null }> {
  const drawing = clipDrawing(media, hit, order)
  const { widthPx, heightPx, secondsAt } = drawing
  const captureFps = hit.captureFps!
  const pace = clipPace(captureFps, order.slowed, order.format)
  const { ffmpeg } = await media.programs()
  const film = await encode(
    ffmpeg.path,
    { widthPx, heightPx, fps: pace.fps, format: order.format },
    pictures(),
    signal,
  )
  return { film, note: paceNote(pace, order.slowed, order.format) }

  async function* pictures(): AsyncGenerator<Canvas> {
    const { fromFrame, toFrame } = hit.window
    const total = toFrame - fromFrame + 1
    let due = 0
    for (let frame = fromFrame; frame <= toFrame; frame++) {
      progress({ what: 'Drawing', done: frame - fromFrame, total })
      const canvas = await drawing.draw(frame, signal)
      // A dropped frame keeps its gap: the picture before it stays on for as long as it took.
      const next = frame < toFrame ? secondsAt(frame + 1) : secondsAt(frame) + 1 / captureFps
      const until = Math.max(due + 1, Math.round(next * captureFps * pace.repeats))
      for (; due < until; due++) yield canvas
    }
  }
}
