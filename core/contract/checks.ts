import { z } from 'zod'
import type { RateCheck } from './rate-check.ts'
import type { ReadoutCheck } from './readout-check.ts'

const positive = z.number().positive()
const frame = z.int().min(0)
const nominalFps = positive.max(1e6)

/** What a clip for a check shows, and what is known of it. */
export const checkAskSchema = z.discriminatedUnion('way', [
  z.strictObject({
    way: z.literal('turntable'),
    nominalFps,
    knownRpm: positive.max(1e5),
    knownRelative: z.number().min(0).max(1),
  }),
  z.strictObject({
    way: z.literal('drop'),
    nominalFps,
    massKilograms: positive.max(10),
    diameterMetres: positive.max(2),
  }),
  z.strictObject({
    way: z.literal('lamp'),
    nominalFps,
    lampHertz: positive.max(1e5),
    /** How well the lamp's rate is known; left out, as mains are. */
    knownRelative: z.number().min(0).max(1).optional(),
  }),
  z.strictObject({
    way: z.literal('counter'),
    nominalFps,
    fromFrame: frame,
    toFrame: frame,
    steps: positive.max(1e9),
    stepSeconds: positive.max(1e5),
  }),
  /** The readout, by a lamp's bands, a spinning pattern or a moved edge. */
  z.strictObject({ way: z.literal('bands'), captureFps: nominalFps, lampHertz: positive.max(1e5) }),
  z.strictObject({ way: z.literal('spin'), captureFps: nominalFps }),
  z.strictObject({ way: z.literal('edge'), captureFps: nominalFps }),
])
export type CheckAsk = z.infer<typeof checkAskSchema>
export type CheckWay = CheckAsk['way']

/** What a check rests on, to be drawn: points in the units that the words name. */
export type CheckEvidence = {
  points: [x: number, y: number][]
  joined: boolean
  xWords: string
  yWords: string
  /** Places along x worth a line, with a word for each. */
  lines: { x: number; word: string }[]
  /** The straight line that was laid through the points, by its ends; null without one. */
  fit: [[x: number, y: number], [x: number, y: number]] | null
}
/** What came out: a rate or a readout, whichever was asked for. */
export type CheckDone = {
  rate: RateCheck | null
  readout: ReadoutCheck | null
  evidence: CheckEvidence | null
}

/** A clip that is looked at without being one of a session: its pictures come by `id`, as any clip's. */
export type LooseClip = { id: string; name: string; frames: number; widthPx: number; heightPx: number }
