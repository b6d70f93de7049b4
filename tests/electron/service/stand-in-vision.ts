import { readFileSync } from 'node:fs'
import { WhorlError } from '../../../core/contract/problem.ts'
import type { ReadClipOptions } from '../../../electron/vision/read-clip.ts'
import type { Vision } from '../../../electron/vision/vision.ts'
import { sampleReading } from '../store/sample-reading.ts'

export type Read = { path: string; options: ReadClipOptions }

/**
 * Flights without pixels: a clip whose text has the word "two" shows two, one with "none" shows none, one with
 * "broken" cannot be decoded, any other shows one on frames 10 to 20. Corrected outlines move the figure by
 * 100 rpm each. Of "plain" balls no flight can be read. "slow" waits until it is cancelled.
 */
export function standInVision() {
  const read: Read[] = []
  const vision: Vision = {
    readClip: async (path, options, { signal, progress } = {}) => {
      read.push({ path, options })
      const text = readFileSync(path, 'utf8')
      progress?.({ what: 'Reading flights', done: 0, total: 1 })
      if (text.includes('slow') && signal)
        await new Promise(resolve => signal.addEventListener('abort', resolve))
      if (signal?.aborted) throw new WhorlError('cancelled', { what: 'Reading the clip' })
      if (text.includes('broken')) throw new WhorlError('ffmpeg-failed', { path, what: 'it broke off' })
      const windows = text.includes('none') ? [] : text.includes('two') ? [10, 30] : [10]
      const inside = windows.filter(from => !options.window || options.window.toFrame >= from)
      const rpm = 2300 + 100 * (options.corrected?.length ?? 0)
      const reasons = ['No ball was seen flying through the picture.', 'Mark it by hand.']
      return {
        clip: options.clip!,
        readings:
          inside.length === 0
            ? [sampleReading({ rpm: null, band: null, candidates: [], method: 'surface', reasons })]
            : inside.map(from =>
                sampleReading({
                  ...(text.includes('plain')
                    ? { rpm: null, band: null, reasons: ['Too little pattern.', 'Put a mark on the ball.'] }
                    : { rpm }),
                  method: 'surface',
                  window: { fromFrame: from, toFrame: from + 10 },
                  candidates: [
                    { rpm, sense: 'clockwise', support: 1, plausible: true },
                    { rpm: 12100, sense: 'counter-clockwise', support: 0.4, plausible: true },
                  ],
                }),
              ),
        outlines: inside.map(from =>
          Array.from({ length: 11 }, (_, i) => ({
            frame: from + i,
            outline: { xPx: 100 + 20 * i, yPx: 200, radiusPx: 40 },
            centreUncertaintyPx: 0.1,
            radiusUncertaintyPx: 0.1,
          })),
        ),
        contacts: [],
        features: inside.map(from => ({
          focalLengthPx: 1300,
          feature: { frame: from + 2, xPx: 150, yPx: 190 },
        })),
      }
    },
    close: async () => {},
  }
  return { vision, read }
}
