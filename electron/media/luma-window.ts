import type { FrameWindow } from '../../core/contract/bench.ts'
import { WhorlError } from '../../core/contract/problem.ts'
import type { Children } from './children.ts'
import type { ClipIndex } from './clip-index.ts'
import { decode } from './decode.ts'
import { fittedSize, lumaFilters } from './filters.ts'
import type { Header } from './header.ts'
import type { Crop, LumaFrame, LumaOptions } from './media.ts'
import type { Tools } from './programs.ts'
import { throttled } from './throttled.ts'

/** Brightness of each frame of a window as it is decoded; whoever is slow to take them makes ffmpeg wait. */
export async function* lumaFrames(
  children: Children,
  tools: Tools,
  index: ClipIndex,
  window: FrameWindow,
  { crop, maxWidthPx, signal, progress }: LumaOptions,
): AsyncGenerator<LumaFrame> {
  if (crop) checkCrop(crop, index.header)
  const size = fittedSize(crop ?? index.header, maxWidthPx)
  const filters = lumaFilters(index.header, crop, size)
  const room = () => new Uint8Array(size.widthPx * size.heightPx)
  const spare = () => {}
  const report = throttled(progress)
  const total = window.toFrame - window.fromFrame + 1
  for await (const { frame, data } of decode(children, tools, index, window, {
    filters,
    room,
    spare,
    signal,
  })) {
    report({ what: 'Looking at frames', done: frame - window.fromFrame + 1, total })
    yield { frame, ...size, data }
  }
}

function checkCrop({ xPx, yPx, widthPx, heightPx }: Crop, header: Header): void {
  const whole = [xPx, yPx, widthPx, heightPx].every(Number.isInteger)
  const right = xPx + widthPx
  const bottom = yPx + heightPx
  if (
    whole &&
    xPx >= 0 &&
    yPx >= 0 &&
    widthPx > 0 &&
    heightPx > 0 &&
    right <= header.widthPx &&
    bottom <= header.heightPx
  )
    return
  const what = `${widthPx} × ${heightPx} at (${xPx}, ${yPx}) is no part of ${header.widthPx} × ${header.heightPx}`
  throw new WhorlError('bad-payload', { call: 'lumaWindow', where: 'crop', what })
}
