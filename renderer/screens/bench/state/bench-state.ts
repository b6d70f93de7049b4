import type { Edit, HitMarks, PlacedSighting } from '../../../../core/contract/bench.ts'
import type { Outline } from '../../../../core/contract/marks.ts'
import type { Problem } from '../../../../core/contract/problem.ts'
import type { BenchHit, ClipRecord, Session } from '../../../../core/contract/workspace.ts'
import type { LiveReading } from './live-reading.ts'

/** Where on the bench a step was made: a failed save is told there. */
export type Place = 'stage' | 'time' | 'marks' | 'reading'
export type Step = { place: Place; save: 'undo' | 'redo' | Edit }

export type PicturePoint = { xPx: number; yPx: number }

/** Rim points being placed in the current frame; `near` is the part of the picture one came closer to. */
export type Rim = { points: PicturePoint[]; near: Outline | null }

/** What the bench was opened on. */
export type BenchSource = {
  hit: BenchHit
  clip: ClipRecord
  session: Session
  timestampsSeconds: number[]
}

/** The whole state of one hit on the bench. What can be worked out from it is in `seen.ts`. */
export type BenchState = BenchSource & {
  /** The person's work as shown: the host's last word with the steps that are still being saved on top. */
  marks: HitMarks
  canUndo: boolean
  canRedo: boolean
  saving: boolean
  problem: { place: Place; problem: Problem } | null
  /** Real time of each frame, seconds; frames at their timestamps while the capture rate is unknown. */
  timesSeconds: number[]
  captureFps: number | null
  live: LiveReading

  frame: number
  direction: 1 | -1
  playing: boolean
  wholeClip: boolean
  mode: 'outline' | 'mark'
  rim: Rim | null
  /** The circle of a frame while it is being dragged: as it was, and as it is now. */
  dragged: { frame: number; from: Outline; outline: Outline } | null
  /** The mark being followed, by id. */
  mark: string
  /** Where the crosshair was moved to in this frame; null while it rests where the fit expects the mark. */
  cursor: PicturePoint | null
  cursorBearingDeg: number | null
  /** Which of the reading's candidates is laid over the plot. */
  overlaid: number | null
  /** Where the followed mark is proposed in every frame, while it is. */
  proposing: boolean
  proposals: PlacedSighting[]
  /** The strip shows every ball turned back to the first frame's pose. */
  turnedBack: boolean

  set(change: Partial<BenchState>): void
  edit(place: Place, ...edits: Edit[]): boolean
  /** The host's newer word on the hit: it was read again. */
  refresh(hit: BenchHit): void
  undo(): void
  redo(): void
  /** The clip's record has changed on the host (a capture rate was given). */
  setClip(clip: ClipRecord): void
}
