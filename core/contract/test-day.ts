import { z } from 'zod'

const name = z.string().trim().min(1).max(200)

/** What a day of filming is planned from; the same gives the same order. */
export const testDaySchema = z.strictObject({
  /** As they are read out: a paddle’s name, or with its set-up `Heron 14 / weighted`. */
  paddles: z.array(name).min(1).max(200),
  /** Stands in every block beside them. */
  reference: name,
  hitsEach: z.int().min(1).max(500),
  blocks: z.int().min(1).max(50),
  /** A fresh ball after so many hits; null for the same ball all day. */
  ballChangeAfter: z.int().min(1).max(10_000).nullable(),
  seed: z.int().min(0).max(1e9),
})
export type TestDay = z.infer<typeof testDaySchema>

/** How the day is filmed: every hit a clip of its own, or one clip for all hits of a paddle's turn. */
export const clipHoldsSchema = z.enum(['hit', 'turn'])
export type ClipHolds = z.infer<typeof clipHoldsSchema>

/** A clip on its turn; `trouble` says why it does not count, with what to do. */
export type TurnClip = { clipId: string; name: string; hits: number; trouble: string | null }
/** One paddle's turn in a block, and what was filmed of it. */
export type DayTurn = {
  place: number
  block: number
  setUpId: string
  paddle: string
  setUp: string
  hits: number
  isReference: boolean
  freshBall: boolean
  leftOut: boolean
  clips: TurnClip[]
}
/** A session's test day. `next` is the turn that the next clip goes to; null when all is filmed. */
export type DayState = {
  clipHolds: ClipHolds
  seed: number
  turns: DayTurn[]
  next: number | null
  /** Clips of the session that are on no turn. */
  unplaced: TurnClip[]
}
