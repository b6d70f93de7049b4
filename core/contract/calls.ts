import { z } from 'zod'
import type { BackupList } from './backups.ts'
import { editSchema, windowSchema } from './bench.ts'
import { type CameraProfile, cameraProfileDetailsSchema } from './cameras.ts'
import { type CheckDone, checkAskSchema, type LooseClip } from './checks.ts'
import {
  type ImportPlan,
  importRulesSchema,
  mappingSchema,
  type PlaceSeen,
  type Transfer,
} from './exchange.ts'
import type { Problem } from './problem.ts'
import {
  type BatchDone,
  batchOrderSchema,
  clipOrderSchema,
  type PublishedFile,
  pictureOrderSchema,
  reportOrderSchema,
  type SavedLook,
  savedLookSchema,
} from './publish.ts'
import type { QueueState, WatchState } from './queue.ts'
import { type RatingRules, ratingRulesSchema } from './rating-rules.ts'
import type { SharedQueue } from './shared-queue.ts'
import type { PaddleComparison, PaddlePage, PaddleTable, SetUpRank } from './standings.ts'
import { type Study, type StudyList, type StudyReport, studySeenSchema } from './study.ts'
import { clipHoldsSchema, type DayState, testDaySchema } from './test-day.ts'
import {
  type BenchHit,
  type ClipRecord,
  type ExportPlan,
  type HitRow,
  type ListedHit,
  type Paddle,
  type Session,
  sessionDetailsSchema,
} from './workspace.ts'

/** Marks the type that a call answers with; only the compiler looks at it. */
type Answers<T> = { readonly answers?: T }
const call = <I extends z.ZodType, O>(input: I, _answer: Answers<O>) =>
  ({ input }) as { input: I } & Answers<O>
const answer = <T>(): Answers<T> => ({})

const id = z.string().min(1).max(64)
const path = z.string().min(1).max(4096)
const server = z.string().trim().min(1).max(2000)
export const callIdSchema = z.string().regex(/^[A-Za-z0-9-]{1,64}$/)
const nothing = z.strictObject({})
const aim = z.strictObject({ target: path, mapping: mappingSchema.nullable().optional() })
const source = z.strictObject({ source: path, rules: importRulesSchema })

/** A step of a person's work as a call, under the id that the page makes it with. */
const stepCallSchema = z.strictObject({
  callId: callIdSchema,
  name: z.enum(['hits.edit', 'hits.undo', 'hits.redo', 'hits.note', 'study.mark', 'study.takeBack']),
  input: z.unknown(),
})
export type StepCall = z.infer<typeof stepCallSchema>

/** The workspace as a whole, for the frame around the screens. */
export type WorkspaceInfo = {
  file: string
  version: string
  methodVersion: string
  shell: 'desktop' | 'loopback'
  /** True while the workspace holds nothing: the home screen shows its two doors. */
  empty: boolean
  recentTargets: string[]
}
/** A clip opened for looking: its container timestamps (seconds, one a frame, as decoded). */
export type OpenedClip = { clip: ClipRecord; timestampsSeconds: number[] }
export type FolderEntry = { name: string; path: string; kind: 'folder' | 'clip'; bytes: number }
export type Folder = { path: string; parent: string | null; entries: FolderEntry[] }
/** Hits in the order of `hits.list`, and the session that the next page comes after; null after the last. */
export type HitPage = { hits: ListedHit[]; next: string | null }
/** What became of each path that was to be added; a bad one never stops the others. */
export type AddedClips = { clips: ClipRecord[] }

/**
 * Everything the two sides say to each other. The page calls, the host answers; both shells serve this
 * one table, and each input is checked against its schema before a handler sees it.
 * A new call is a line here and a handler in electron/service.
 */
export const calls = {
  'workspace.info': call(nothing, answer<WorkspaceInfo>()),
  'demo.fill': call(nothing, answer<{ sessionId: string }>()),

  'backups.list': call(nothing, answer<BackupList>()),
  'backups.make': call(nothing, answer<BackupList>()),
  /** Everything becomes as it was in that backup; what is there now becomes a backup itself first. */
  'backups.restore': call(z.strictObject({ name: z.string().min(1).max(300) }), answer<BackupList>()),

  'sessions.list': call(nothing, answer<Session[]>()),
  'sessions.create': call(z.strictObject({ details: sessionDetailsSchema }), answer<Session>()),
  'sessions.update': call(
    z.strictObject({ sessionId: id, details: sessionDetailsSchema }),
    answer<Session>(),
  ),
  'sessions.remove': call(z.strictObject({ sessionId: id }), answer<null>()),

  'cameras.list': call(nothing, answer<CameraProfile[]>()),
  /** A new one where `cameraId` is null. Sessions keep what they took: a change here reaches no reading. */
  'cameras.keep': call(
    z.strictObject({ cameraId: id.nullable(), details: cameraProfileDetailsSchema }),
    answer<CameraProfile>(),
  ),
  'cameras.remove': call(z.strictObject({ cameraId: id }), answer<null>()),
  /** Opens a clip for a look alone: it comes into no session. */
  'checks.look': call(z.strictObject({ path }), answer<LooseClip>()),
  /** A camera checked by a clip of something known; what cannot be measured is refused with a way out. */
  'checks.run': call(z.strictObject({ path, ask: checkAskSchema }), answer<CheckDone>()),

  /** Makes the day's session; paddles and set-ups that are not there yet are made. */
  'day.begin': call(
    z.strictObject({ details: sessionDetailsSchema, day: testDaySchema, clipHolds: clipHoldsSchema }),
    answer<Session>(),
  ),
  /** Null for a session without a test day. */
  'day.state': call(z.strictObject({ sessionId: id }), answer<DayState | null>()),
  /** Puts a clip on a turn of its session's day, or (null) on none; its hits go to that turn's paddle. */
  'day.place': call(z.strictObject({ clipId: id, place: z.int().min(0).nullable() }), answer<DayState>()),
  'day.leaveOut': call(
    z.strictObject({ sessionId: id, place: z.int().min(0), leftOut: z.boolean() }),
    answer<DayState>(),
  ),

  'paddles.list': call(nothing, answer<Paddle[]>()),
  'paddles.create': call(
    z.strictObject({ name: z.string().trim().min(1).max(200), notes: z.string().max(2000) }),
    answer<Paddle>(),
  ),
  'paddles.addSetUp': call(
    z.strictObject({ paddleId: id, name: z.string().trim().min(1).max(200), notes: z.string().max(2000) }),
    answer<Paddle>(),
  ),

  'files.list': call(z.strictObject({ folder: path.nullable() }), answer<Folder>()),
  /** The desktop's own file dialog; the loopback shell answers null and the page shows `files.list`. */
  'files.pick': call(
    z.strictObject({ purpose: z.enum(['clips', 'target', 'folder']) }),
    answer<string[] | null>(),
  ),

  'clips.list': call(z.strictObject({ sessionId: id }), answer<ClipRecord[]>()),
  'clips.add': call(
    z.strictObject({ sessionId: id, paths: z.array(path).min(1).max(1000) }),
    answer<AddedClips>(),
  ),
  'clips.open': call(z.strictObject({ clipId: id }), answer<OpenedClip>()),
  'clips.locate': call(z.strictObject({ clipId: id, path }), answer<ClipRecord>()),
  'clips.setCaptureFps': call(
    z.strictObject({ clipId: id, captureFps: z.number().positive().max(1e6).nullable() }),
    answer<ClipRecord>(),
  ),
  'clips.remove': call(z.strictObject({ clipId: id }), answer<null>()),
  /** Decodes a window into the host's memory, so that `frame` answers at once. */
  'clips.prepare': call(z.strictObject({ clipId: id, window: windowSchema }), answer<null>()),

  /** Finds the flights of a clip and reads each from the ball's surface; hits that are there stay. */
  'clips.read': call(z.strictObject({ clipId: id }), answer<{ hitIds: string[]; said: string }>()),

  /** Every clip of the session that has no hit yet. It goes on while the program runs, and after a restart. */
  'queue.start': call(z.strictObject({ sessionId: id }), answer<QueueState>()),
  'queue.state': call(z.strictObject({ sessionId: id }), answer<QueueState>()),
  'queue.cancel': call(z.strictObject({ sessionId: id }), answer<QueueState>()),
  /**
   * How far a queue of several machines on a server is. Without a server: the one looked at last, whose password is
   * known while the program runs; null where none was looked at.
   */
  'sharedQueue.look': call(z.strictObject({ server: server.nullable() }), answer<SharedQueue | null>()),
  /** The server that the workspace remembers, by its address and database; null where none was named. */
  'sharedQueue.place': call(nothing, answer<string | null>()),
  /** Puts the clips of a session that have no hit yet on a server's queue, for other machines to read. */
  'sharedQueue.put': call(z.strictObject({ sessionId: id, server: server.nullable() }), answer<QueueState>()),
  /**
   * Takes what other machines read of a session's clips into the workspace at once, each clip once; the app does it by
   * itself every few seconds. A server is named where its place alone does not let in.
   */
  'sharedQueue.take': call(
    z.strictObject({ sessionId: id, server: server.nullable() }),
    answer<QueueState>(),
  ),
  /** Why the server that a session's clips are on did not answer when it was asked last. */
  'sharedQueue.trouble': call(z.strictObject({ sessionId: id }), answer<Problem | null>()),
  /** What is with other machines is not waited for any longer; it stays on the queue. */
  'sharedQueue.leave': call(z.strictObject({ sessionId: id }), answer<QueueState>()),
  'watch.set': call(z.strictObject({ sessionId: id, folder: path.nullable() }), answer<WatchState>()),
  'watch.state': call(z.strictObject({ sessionId: id }), answer<WatchState>()),

  'hits.list': call(
    z.strictObject({ sessionId: id.optional(), clipId: id.optional() }),
    answer<ListedHit[]>(),
  ),
  /** Every hit of the workspace, whole sessions at a time, until there are `least` of them. */
  'hits.page': call(
    z.strictObject({ after: id.nullable(), least: z.int().min(1).max(50_000) }),
    answer<HitPage>(),
  ),
  'hits.create': call(z.strictObject({ clipId: id, window: windowSchema }), answer<BenchHit>()),
  'hits.open': call(z.strictObject({ hitId: id }), answer<BenchHit>()),
  'hits.assign': call(z.strictObject({ hitId: id, setUpId: id.nullable() }), answer<HitRow>()),
  'hits.note': call(z.strictObject({ hitId: id, notes: z.string().max(2000) }), answer<HitRow>()),
  'hits.remove': call(z.strictObject({ hitId: id }), answer<null>()),
  'hits.edit': call(z.strictObject({ hitId: id, edit: editSchema }), answer<BenchHit>()),
  /** Reads the hit from the ball's surface, within its window, outlines that a person placed as they are. */
  'hits.read': call(z.strictObject({ hitId: id }), answer<BenchHit>()),
  'hits.undo': call(z.strictObject({ hitId: id }), answer<BenchHit>()),
  'hits.redo': call(z.strictObject({ hitId: id }), answer<BenchHit>()),
  /**
   * Steps that a page still had on their way when it was left, in their order. Each is done once, also where the page's
   * own call of the same id came through; behind one that was refused nothing is done.
   */
  'steps.handOver': call(z.strictObject({ steps: z.array(stepCallSchema).min(1) }), answer<null>()),

  'study.list': call(z.strictObject({ sessionId: id }), answer<StudyList>()),
  /** A person's marking study of a session: up to `items` marks, each shown twice, blind, in an order by chance. */
  'study.begin': call(
    z.strictObject({
      sessionId: id,
      person: z.string().trim().min(1).max(100),
      items: z.int().min(1).max(200),
    }),
    answer<Study>(),
  ),
  'study.open': call(z.strictObject({ studyId: id }), answer<Study>()),
  'study.mark': call(
    z.strictObject({ studyId: id, place: z.int().min(0), seen: studySeenSchema }),
    answer<{ done: number }>(),
  ),
  'study.takeBack': call(z.strictObject({ studyId: id }), answer<{ done: number }>()),
  'study.remove': call(z.strictObject({ studyId: id }), answer<null>()),
  'study.report': call(z.strictObject({ sessionId: id }), answer<StudyReport>()),

  /** Every paddle and set-up with its place among all. Rank bands take longer: `ratings.ranks` has them. */
  'ratings.table': call(nothing, answer<PaddleTable>()),
  'ratings.ranks': call(nothing, answer<SetUpRank[]>()),
  'ratings.paddle': call(z.strictObject({ paddleId: id }), answer<PaddlePage>()),
  'ratings.compare': call(
    z.strictObject({ setUpIds: z.array(id).min(1).max(12) }),
    answer<PaddleComparison>(),
  ),
  'ratings.setRules': call(z.strictObject({ rules: ratingRulesSchema }), answer<RatingRules>()),

  /** A picture or a report as a file; the page shows it, saves it, or lets it be dragged out. */
  'publish.picture': call(pictureOrderSchema, answer<PublishedFile>()),
  'publish.report': call(reportOrderSchema, answer<PublishedFile>()),
  'publish.clip': call(clipOrderSchema, answer<PublishedFile>()),
  /** One picture of that clip, as PNG: frames count from the hit's first. */
  'publish.clipFrame': call(
    z.strictObject({ order: clipOrderSchema, frame: z.int().min(0) }),
    answer<PublishedFile>(),
  ),
  'publish.batch': call(batchOrderSchema, answer<BatchDone>()),
  'publish.looks': call(nothing, answer<SavedLook[]>()),
  /** One of the same name gives way. */
  'publish.keepLook': call(z.strictObject({ saved: savedLookSchema }), answer<SavedLook[]>()),
  'publish.dropLook': call(z.strictObject({ name: z.string().min(1).max(60) }), answer<SavedLook[]>()),

  /** What tables lie where a path or a connection string points, and which columns fields would go into. */
  'export.look': call(z.strictObject({ target: path }), answer<PlaceSeen>()),
  /** Without a mapping the place's saved one, else what its headers suggest; null is Whorl's own table. */
  'export.preview': call(aim, answer<ExportPlan>()),
  'export.write': call(aim, answer<ExportPlan>()),
  /** Puts back what the place's last export found there. */
  'export.undo': call(z.strictObject({ target: path }), answer<{ place: string; said: string }>()),
  'transfers.list': call(nothing, answer<Transfer[]>()),

  /** What a table of the person's would bring, every cell that was not understood with it. */
  'import.preview': call(source, answer<ImportPlan>()),
  'import.write': call(source, answer<ImportPlan>()),
  'import.undo': call(z.strictObject({ transferId: id }), answer<null>()),
  /** All that a paddle's or a session's figures rest on, as one zip. */
  'bundle.make': call(
    z.strictObject({ kind: z.enum(['paddle', 'session']), id, path }),
    answer<{ path: string; bytes: number }>(),
  ),
} as const

export type Calls = typeof calls
export type CallName = keyof Calls
/** What a caller passes (before the schema's own trims and defaults). */
export type CallInput<N extends CallName> = z.input<Calls[N]['input']>
/** What a handler receives. */
export type CallChecked<N extends CallName> = z.output<Calls[N]['input']>
export type CallAnswer<N extends CallName> = Calls[N] extends Answers<infer O> ? O : never

/** Said by the host unasked. `changed` names what to read again. */
export type HostEvent =
  | {
      kind: 'changed'
      what: 'sessions' | 'clips' | 'hits' | 'paddles' | 'studies' | 'queue' | 'transfers' | 'ratings'
      id: string | null
    }
  | { kind: 'changed'; what: 'backups' | 'cameras' | 'looks'; id: null }
  | { kind: 'progress'; callId: string; what: string; done: number; total: number | null }

/** A decoded picture, planar YUV 4:2:0 (I420), rows unpadded, sizes even; as shown, after the rotation. */
export type FramePicture = { widthPx: number; heightPx: number; data: Uint8Array<ArrayBuffer> }

export type Progress = { what: string; done: number; total: number | null }
export type CallOptions = {
  signal?: AbortSignal
  onProgress?: (progress: Progress) => void
  /** The call's own id, where the caller has to know it; left out: any. */
  callId?: string
}

/**
 * The host as the page sees it, whichever shell carries it. A call that fails rejects with a
 * `HostProblem` holding the `whorl.error/1` words.
 */
export interface Host {
  call<N extends CallName>(name: N, input: CallInput<N>, options?: CallOptions): Promise<CallAnswer<N>>
  /** The picture of one frame; `maxWidthPx` scales it down in the decoder. */
  frame(
    clipId: string,
    frame: number,
    options?: { maxWidthPx?: number; signal?: AbortSignal },
  ): Promise<FramePicture>
  on(listener: (event: HostEvent) => void): () => void
  /** The path of a dropped file: the desktop knows it, loopback copies the file beside the workspace first. */
  pathOf(file: File, options?: CallOptions): Promise<string>
  /** Whether these steps are safe although the page goes away now. */
  areSafe(calls: readonly StepCall[]): boolean
  /** Hands steps over from a page that goes away: nobody is there for the answer. */
  handOver(calls: readonly StepCall[]): void
  /** Has the shell wait for this before it closes the page, where a shell can. */
  beforeClose(written: () => Promise<void>): void
}

/** What each shell serves: one handler a call, every input already checked. */
export type Service = {
  [N in CallName]: (input: CallChecked<N>, context: CallContext) => Promise<CallAnswer<N>>
}
export type CallContext = {
  signal: AbortSignal
  progress: (progress: Progress) => void
  /** The call's id, where a shell carried it. */
  callId?: string
}
