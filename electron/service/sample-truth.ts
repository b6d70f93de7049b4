import { existsSync, readFileSync } from 'node:fs'
import { join } from 'node:path'
import { z } from 'zod'
import type { FrameWindow } from '../../core/contract/bench.ts'
import { places } from './places.ts'

const truthSchema = z.object({
  flights: z.array(z.object({ firstFrame: z.int(), lastFrame: z.int(), rpm: z.number() })),
})

const truthFile = (clip: string) => join(places.samples, clip.replace(/\.\w+$/, '.truth.json'))

/** Whether a clip is one of the rendered ones. */
export const isSample = (clip: string): boolean => existsSync(truthFile(clip))

/** The rate that a sample clip was rendered with, in the flight where most of the window lies. */
export function trueRpmOf(clip: string, window: FrameWindow): number | null {
  const text = readFileSync(truthFile(clip), 'utf8')
  const { flights } = truthSchema.parse(JSON.parse(text))
  const middle = (window.fromFrame + window.toFrame) / 2
  return flights.find(({ firstFrame, lastFrame }) => firstFrame <= middle && middle <= lastFrame)?.rpm ?? null
}
