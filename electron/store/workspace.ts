import type { Edit, FrameWindow, HitMarks, PlacedOutline } from '../../core/contract/bench.ts'
import type { HitPage } from '../../core/contract/calls.ts'
import type { CameraProfile, CameraProfileDetails } from '../../core/contract/cameras.ts'
import type { Clip } from '../../core/contract/clip.ts'
import type { Mapping, Transfer } from '../../core/contract/exchange.ts'
import type { Metric } from '../../core/contract/metrics.ts'
import type { Problem } from '../../core/contract/problem.ts'
import type { Reading } from '../../core/contract/reading.ts'
import type { StudySeen, StudyTask } from '../../core/contract/study.ts'
import type { ClipHolds, DayState, TestDay } from '../../core/contract/test-day.ts'
import type {
  BenchHit,
  ClipRecord,
  HitRow,
  ListedHit,
  Paddle,
  Session,
  SessionDetails,
} from '../../core/contract/workspace.ts'
import type { RatedRow } from '../../core/ratings/rated-hit.ts'
import type { EnteredHit } from './enter-hits.ts'
import type { KeptFigure } from './figures.ts'
import type { ImportWayBack, MetricRow } from './metrics.ts'

/** What a look at a file found: its probe and container timestamps (seconds), or the problem with it. */
export type FoundClip = {
  path: string
  probe: Clip | null
  problem: Problem | null
  timestampsSeconds: readonly number[]
}

/** A mark to be shown again, and how it stood on the bench when the study was planned. */
export type PlannedTask = StudyTask & { onBench: StudySeen }
/** A marking study as stored: its order of tasks, and what was seen of the first ones. */
export type StoredStudy = {
  id: string
  sessionId: string
  person: string
  tasks: PlannedTask[]
  seen: StudySeen[]
}

/** A hit's reading from the surface as it was made, and from what: the same asked again gives the same. */
export type SurfaceOfHit = NonNullable<BenchHit['surface']> & { asked: string; reading: Reading }
/** A flight found in a clip, to become a hit. */
export type FoundHit = {
  window: FrameWindow
  outlines: readonly PlacedOutline[]
  surface: SurfaceOfHit
  methodVersion: string
}
/** How far a clip of the queue is; `said` tells what came out of it or went wrong, or on which server it is. */
export type Queued = {
  clipId: string
  sessionId: string
  state: 'waiting' | 'reading' | 'elsewhere' | 'done' | 'failed'
  said: string
}

/** Which hits are meant: one clip's, one session's, one set-up's, or all. */
export type HitFilter = { sessionId?: string; clipId?: string; setUpId?: string }

/** A hit as a paddle's figure needs it, no more: figures are made from a hundred thousand of them. */
export type RatedEvidence = { row: RatedRow; settled: HitMarks['settled']; cameraName: string }

/** A hit with everything that its figure rests on. */
export type HitEvidence = RatedEvidence & {
  row: HitRow
  captureFps: number | null
  /** SHA-256 over the hit's marks, its reading and the method version; null while there is no reading. */
  digest: string | null
}

/**
 * One workspace file, open. Every call that changes something is one transaction, on disk when it
 * returns. An unknown id throws `not-in-workspace`; trouble with the file throws `workspace-locked`,
 * `workspace-read-only` or `disk-full` and leaves the earlier work as it was.
 */
export interface Workspace {
  readonly file: string
  isEmpty(): boolean
  close(): void
  /** All work gives way to that of another workspace file of the same form, at once. */
  takeOver(copy: string): void

  sessions(): Session[]
  session(sessionId: string): Session
  createSession(details: SessionDetails): Session
  /** Camera, ball or limits that change a figure make the session's readings stale. */
  updateSession(sessionId: string, details: SessionDetails): Session
  removeSession(sessionId: string): void

  /** By name. */
  cameras(): CameraProfile[]
  /** Throws `name-taken`, as the next. */
  createCamera(details: CameraProfileDetails): CameraProfile
  updateCamera(cameraId: string, details: CameraProfileDetails): CameraProfile
  /** Sessions and readings keep what they took from it. */
  removeCamera(cameraId: string): void

  /** Gives a session its test day: clips that come in from now on go to its turns, in order. */
  planDay(sessionId: string, day: TestDay, clipHolds: ClipHolds): void
  testDay(sessionId: string): DayState | null
  /** A clip on another turn, or on none; its hits follow, those of another paddle excepted. */
  placeClip(clipId: string, place: number | null): DayState
  leaveTurnOut(sessionId: string, place: number, leftOut: boolean): DayState

  paddles(): Paddle[]
  /** With the set-up "stock". Throws `name-taken`. */
  createPaddle(paddle: { name: string; notes: string }): Paddle
  addSetUp(paddleId: string, setUp: { name: string; notes: string }): Paddle

  /** As stored: whether the file still lies at its path is for the caller to see. */
  clips(sessionId: string): ClipRecord[]
  clip(clipId: string): ClipRecord
  /** The same contents twice in a session are one clip, at the path given last. */
  addClip(sessionId: string, found: FoundClip): ClipRecord
  /** What a new look at the clip's file found. Throws `clip-not-same` when other contents lie under its hits. */
  setProbe(clipId: string, found: FoundClip): ClipRecord
  /** The clip lies at another path now. Throws `clip-not-same` when the hash is another one. */
  locate(clipId: string, file: { path: string; sha256: string }): ClipRecord
  /** Every clip with these contents, in any session. */
  findClipsBySha256(sha256: string): ClipRecord[]
  timestampsSeconds(clipId: string): number[]
  /** A person's word on the capture rate; null takes it back. The clip's readings become stale. */
  setCaptureFps(clipId: string, captureFps: number | null): ClipRecord
  removeClip(clipId: string): void

  /** In order of session day (latest first), clip and window. */
  hits(filter: HitFilter): ListedHit[]
  /** Those of the sessions after that one (null: of the first ones), whole sessions, until there are `least`. */
  hitPage(after: string | null, least: number): HitPage
  /** Hits whose reading is older than their marks, their camera's facts, or not there yet. */
  staleHits(filter: HitFilter): string[]
  evidence(filter?: HitFilter): HitEvidence[]
  createHit(clipId: string, window: FrameWindow): BenchHit
  hit(hitId: string): BenchHit
  assignHit(hitId: string, setUpId: string | null): HitRow
  noteHit(hitId: string, notes: string): HitRow
  removeHit(hitId: string): void
  /** Marks, undo entry and revision in one transaction. Throws `edit-refused`. A new edit drops what could be redone. */
  saveEdit(hitId: string, edit: Edit): BenchHit
  /** Without a step to take, the hit as it is. */
  undo(hitId: string): BenchHit
  redo(hitId: string): BenchHit
  /** The reading of the hit's marks as they are now. */
  saveReading(hitId: string, reading: Reading, methodVersion: string): BenchHit

  surface(hitId: string): SurfaceOfHit | null
  /** What was read from the surface, and its outlines in place of earlier found ones; a person's own stay. */
  saveSurface(hitId: string, surface: SurfaceOfHit, outlines: readonly PlacedOutline[]): void
  /** New hits of a clip, all or none; flights that share frames with a hit that is there are left out. */
  addFoundHits(clipId: string, flights: readonly FoundHit[]): string[]
  /** What was read from a clip's contents before, when the same was asked of it. */
  flightsRead<T>(sha256: string, asked: string): T | null
  keepFlights<T>(sha256: string, asked: string, flights: T): void

  /** In the order in which they were put. */
  queued(): Queued[]
  /** Behind the others; a clip that was done or failed before waits anew. */
  putInQueue(clipIds: readonly string[]): void
  setQueued(clipId: string, state: Queued['state'], said: string): void
  /** The clip is on a server's queue now, for other machines. */
  putElsewhere(clipId: string, place: string): void
  /** What has not been begun or finished, here or on other machines, leaves the queue. */
  takeFromQueue(sessionId: string, where: 'here' | 'elsewhere'): void

  watchedFolders(): { sessionId: string; folder: string; known: string[] }[]
  /** Null: the session watches none. `known` are the names that are no news. */
  watchFolder(sessionId: string, watched: { folder: string; known: readonly string[] } | null): void

  /** Marking studies of a session, oldest first. */
  studies(sessionId: string): StoredStudy[]
  study(studyId: string): StoredStudy
  createStudy(study: { sessionId: string; person: string; tasks: PlannedTask[] }): StoredStudy
  /** The next place of the order; a place that has been marked is refused (`edit-refused`). */
  saveRemark(studyId: string, place: number, seen: StudySeen): StoredStudy
  /** Without a remark to take back, the study as it is. */
  takeBackRemark(studyId: string): StoredStudy
  removeStudy(studyId: string): void

  /** Whole hits from elsewhere, all of them or none. */
  enterHits(hits: readonly EnteredHit[], methodVersion: string): void

  /** What was kept of every set-up, none of those whose hits changed since. */
  figures(): KeptFigure[]
  /** Paddles without a hit, each in its first set-up. */
  unfilmed(): Omit<KeptFigure, 'figure'>[]
  /** Set-ups with hits whose figure is not kept, or was not made by `madeBy`, and how many hits each has. */
  outdatedFigures(madeBy: string): { setUpId: string; hits: number }[]
  /** Makes and keeps figures (JSON) in one transaction, so that nothing changes between the look and the keeping. */
  keepFigures(setUpIds: readonly string[], madeBy: string, make: (hits: RatedEvidence[]) => string): void
  /** Another mark than before says that something changed, in this window or another one. */
  changeMark(): string

  /** A setting as it was kept (JSON); null where nobody has set it. */
  setting(name: string): string | null
  keepSetting(name: string, value: string): void

  /** By name, all paddles'. */
  metrics(): Metric[]
  /** All of the rows or none, in order; a value that is there already stays as it is. Throws `name-taken`. */
  importMetrics(rows: readonly MetricRow[], source: string): ImportWayBack
  /** Takes an import back. Throws `undo-refused` when a value of it was changed since. */
  undoImport(wayBack: ImportWayBack): void

  /** Latest first. */
  recentTargets(): string[]
  rememberTarget(path: string): void

  /** How a place wants its columns; null for Whorl's own table. */
  mapping(place: string): Mapping | null
  saveMapping(place: string, mapping: Mapping | null): void
  /** Exports and imports, the latest first. */
  transfers(): Transfer[]
  addTransfer(transfer: Pick<Transfer, 'kind' | 'place' | 'said'> & { wayBack: unknown }): void
  /** A place's last export that has not been undone, with the way back that was stored for it. */
  lastExport<W>(place: string): { id: string; said: string; wayBack: W } | null
  wayBackOf<W>(transferId: string): W | null
  markUndone(transferId: string): void
}
