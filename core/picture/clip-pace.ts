import type { ClipFormat } from '../contract/publish.ts'
import { digits } from './figure-text.ts'

/**
 * So many pictures a second, how often each frame is shown, and how many times slower than real time that is.
 * Every frame is shown: a clip that would run faster than players keep up with runs slower than was asked.
 */
export type ClipPace = { fps: number; repeats: number; slowed: number }

const least = 24
/** A GIF counts in hundredths of a second, and players slow down what is faster than this. */
const most: Record<ClipFormat, number> = { mp4: 60, gif: 25, webp: 50 }

export function clipPace(captureFps: number, slowed: number, format: ClipFormat): ClipPace {
  const asked = captureFps / slowed
  const wanted = Math.ceil(least / asked - 1e-9)
  const repeats = Math.max(1, Math.min(wanted, Math.floor(most[format] / asked + 1e-9)))
  const fps = Math.min(asked * repeats, most[format])
  return { fps, repeats, slowed: (captureFps * repeats) / fps }
}

/** What a person should know of the pace; null where it is as it was asked for. */
export function paceNote(pace: ClipPace, slowed: number, format: ClipFormat): string | null {
  if (pace.slowed <= slowed * 1.005) return null
  const times = digits(pace.slowed, Number.isInteger(pace.slowed) ? 0 : 1)
  return `Slowed ${times} times instead of ${digits(slowed, Number.isInteger(slowed) ? 0 : 1)}: ${format.toUpperCase()} shows at most ${most[format]} pictures a second, and every frame is shown.`
}
