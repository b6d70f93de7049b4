import type {
  CallAnswer,
  CallInput,
  CallName,
  CallOptions,
  FramePicture,
  Host,
  HostEvent,
  StepCall,
  WorkspaceInfo,
} from '../../core/contract/calls.ts'
import { type ProblemCode, WhorlError } from '../../core/contract/problem.ts'
import type { BenchHit, ExportPlan, HitRow, Session } from '../../core/contract/workspace.ts'
import { comparisonOf } from '../../core/ratings/comparison.ts'
import { HostProblem } from '../../renderer/host/host.ts'
import { probeOf, type StandInData } from './stand-in-data.ts'
import { pageOf, ranksOf, ratingsOf } from './stand-in-ratings.ts'

type Handlers = {
  [N in CallName]: (input: CallInput<N>, options: CallOptions) => CallAnswer<N> | Promise<CallAnswer<N>>
}
export type StandIn = Host & {
  data: StandInData
  /** Every call in order, as the page made it. */
  seen: { name: CallName; input: unknown }[]
  /** Makes the host say something unasked. */
  say(event: HostEvent): void
  /** What a page that went away handed over. */
  handed: (readonly StepCall[])[]
  /** What the shell would wait for before it closes. */
  closing: (() => Promise<void>) | null
}
type Given = Partial<Handlers> & { frame?: Host['frame']; info?: Partial<WorkspaceInfo> }

const refuse = (...args: ConstructorParameters<typeof WhorlError<ProblemCode>>): never => {
  throw new HostProblem(new WhorlError(...args).toProblem())
}
const only = <T>(found: T | undefined, what: string, id: string): T =>
  found ?? refuse('not-in-workspace', { what, id })

/** A host in memory, held to the contract by the compiler. `given` replaces what a test is about. */
export function standInHost(data: StandInData, given: Given = {}): StandIn {
  const listeners = new Set<(event: HostEvent) => void>()
  const seen: StandIn['seen'] = []
  const say = (event: HostEvent) => {
    for (const listener of [...listeners]) listener(event)
  }
  const session = (id: string) =>
    only(
      data.sessions.find(each => each.id === id),
      'session',
      id,
    )
  const clip = (id: string) =>
    only(
      data.clips.find(each => each.id === id),
      'clip',
      id,
    )
  const row = (id: string) =>
    only(
      data.hits.find(each => each.hitId === id),
      'hit',
      id,
    )
  const benchHit = (hit: HitRow): BenchHit => ({
    row: hit,
    marks: {
      window: hit.window,
      marks: [],
      outlines: [],
      sightings: [],
      sense: null,
      settled: null,
      verdict: hit.verdict,
    },
    canUndo: false,
    canRedo: false,
  })
  const replaceHit = (changed: HitRow): HitRow => {
    data.hits = data.hits.map(each => (each.hitId === changed.hitId ? changed : each))
    for (const each of data.sessions) Object.assign(each, countsOf(data, each.id))
    queueMicrotask(() => say({ kind: 'changed', what: 'hits', id: changed.hitId }))
    return changed
  }
  let made = 0
  const newId = (what: string) => `${what}-new-${++made}`

  const handlers: Handlers = {
    'workspace.info': () => ({
      file: '/home/bench/whorl/workspace.sqlite',
      version: '0.1.0',
      methodVersion: '1',
      shell: 'loopback',
      empty: data.sessions.length === 0,
      recentTargets: ['/home/bench/ratings/ratings.sqlite', '/home/bench/ratings/may.csv'],
      ...given.info,
    }),
    'demo.fill': () => ({ sessionId: data.sessions[0]?.id ?? '' }),
    'sharedQueue.look': () => null,
    'sharedQueue.place': () => null,
    'sharedQueue.put': () => ({ entries: [] }),
    'sharedQueue.take': () => ({ entries: [] }),
    'sharedQueue.trouble': () => null,
    'sharedQueue.leave': () => ({ entries: [] }),
    'backups.list': () => ({ backups: data.backups ?? [], problem: null }),
    'backups.make': () => ({ backups: data.backups ?? [], problem: null }),
    'backups.restore': () => ({ backups: data.backups ?? [], problem: null }),
    'sessions.list': () => data.sessions.map(each => ({ ...each })),
    'sessions.create': ({ details }) => {
      const created: Session = {
        ...details,
        id: newId('session'),
        clips: 0,
        hits: 0,
        accepted: 0,
        heldBack: 0,
      }
      data.sessions = [created, ...data.sessions]
      say({ kind: 'changed', what: 'sessions', id: created.id })
      return created
    },
    'sessions.update': ({ sessionId, details }) => {
      const changed = Object.assign(session(sessionId), details)
      say({ kind: 'changed', what: 'sessions', id: sessionId })
      return changed
    },
    'sessions.remove': ({ sessionId }) => {
      data.sessions = data.sessions.filter(each => each.id !== sessionId)
      say({ kind: 'changed', what: 'sessions', id: sessionId })
      return null
    },
    'cameras.list': () => data.cameras ?? [],
    'cameras.keep': ({ cameraId, details }) => {
      const kept = { id: cameraId ?? newId('camera'), ...details }
      const others = (data.cameras ?? []).filter(each => each.id !== kept.id)
      if (others.some(each => each.name === kept.name))
        refuse('name-taken', { what: 'camera', name: kept.name })
      data.cameras = [...others, kept]
      say({ kind: 'changed', what: 'cameras', id: null })
      return kept
    },
    'cameras.remove': ({ cameraId }) => {
      data.cameras = data.cameras?.filter(each => each.id !== cameraId)
      say({ kind: 'changed', what: 'cameras', id: null })
      return null
    },
    'checks.look': ({ path }) => ({
      id: 'loose-1',
      name: path.split('/').at(-1) ?? path,
      frames: 1200,
      widthPx: 1920,
      heightPx: 1080,
    }),
    'checks.run': () =>
      refuse('rate-not-checked', { reason: 'The brightness shows no wave.', tip: 'Film a lamp.' }),
    'day.begin': ({ details }) => handlers['sessions.create']({ details }, {}),
    'day.state': () => null,
    'day.place': ({ clipId }) => refuse('not-in-workspace', { what: 'turn', id: clipId }),
    'day.leaveOut': ({ sessionId }) => refuse('not-in-workspace', { what: 'turn', id: sessionId }),
    'paddles.list': () => data.paddles,
    'paddles.create': ({ name, notes }) => {
      if (data.paddles.some(each => each.name === name)) refuse('name-taken', { what: 'paddle', name })
      const id = newId('paddle')
      const created = { id, name, notes, setUps: [{ id: `${id}-stock`, name: 'stock', notes: '' }] }
      data.paddles = [...data.paddles, created]
      say({ kind: 'changed', what: 'paddles', id })
      return created
    },
    'paddles.addSetUp': ({ paddleId, name, notes }) => {
      const paddle = only(
        data.paddles.find(each => each.id === paddleId),
        'paddle',
        paddleId,
      )
      paddle.setUps.push({ id: newId('set-up'), name, notes })
      say({ kind: 'changed', what: 'paddles', id: paddleId })
      return paddle
    },
    'files.list': ({ folder }) => ({
      path: folder ?? '/home/bench/clips',
      parent: folder === '/home/bench' ? null : '/home/bench',
      entries: [
        { name: 'may', path: '/home/bench/clips/may', kind: 'folder', bytes: 0 },
        { name: 'new-1.mov', path: '/home/bench/clips/new-1.mov', kind: 'clip', bytes: 31_000_000 },
        { name: 'new-2.mov', path: '/home/bench/clips/new-2.mov', kind: 'clip', bytes: 44_100_000 },
      ],
    }),
    'files.pick': () => null,
    'clips.list': ({ sessionId }) => data.clips.filter(each => each.sessionId === sessionId),
    'clips.add': ({ sessionId, paths }) => {
      const clips = paths.map(path => ({
        id: newId('clip'),
        sessionId,
        name: path.split('/').at(-1) ?? path,
        path,
        probe: probeOf({ path }),
        problem: null,
        hits: 0,
        accepted: 0,
      }))
      data.clips = [...data.clips, ...clips]
      session(sessionId).clips += clips.length
      say({ kind: 'changed', what: 'clips', id: null })
      return { clips }
    },
    'clips.open': ({ clipId }) => ({
      clip: clip(clipId),
      timestampsSeconds: Array.from({ length: clip(clipId).probe?.frames ?? 0 }, (_, frame) => frame / 240),
    }),
    'clips.locate': ({ clipId, path }) =>
      Object.assign(clip(clipId), { path, probe: probeOf({ path }), problem: null }),
    'clips.setCaptureFps': ({ clipId, captureFps }) => {
      const { probe } = clip(clipId)
      if (probe) probe.capture = { fps: captureFps, source: 'user', relativeUncertainty: null }
      say({ kind: 'changed', what: 'clips', id: clipId })
      return clip(clipId)
    },
    'clips.remove': ({ clipId }) => {
      data.clips = data.clips.filter(each => each.id !== clipId)
      say({ kind: 'changed', what: 'clips', id: clipId })
      return null
    },
    'clips.prepare': () => null,
    'clips.read': () => ({ hitIds: [], said: '' }),
    'queue.start': () => ({ entries: [] }),
    'queue.state': () => ({ entries: [] }),
    'queue.cancel': () => ({ entries: [] }),
    'watch.set': ({ folder }) => ({ folder, problem: null, waiting: [], arrived: [] }),
    'watch.state': () => ({ folder: null, problem: null, waiting: [], arrived: [] }),
    'hits.read': ({ hitId }) => benchHit(row(hitId)),
    'hits.list': ({ sessionId, clipId }) =>
      data.hits.filter(
        each => (!sessionId || each.sessionId === sessionId) && (!clipId || each.clipId === clipId),
      ),
    'hits.page': () => ({ hits: data.hits, next: null }),
    'hits.create': ({ clipId, window }) => {
      const { sessionId, name } = clip(clipId)
      const created: HitRow = {
        hitId: newId('hit'),
        clipId,
        sessionId,
        clipName: name,
        day: session(sessionId).day,
        setUpId: null,
        paddle: null,
        setUp: null,
        window,
        verdict: { state: 'open', reason: '' },
        reading: null,
        methodVersion: null,
        stale: false,
        notes: '',
      }
      data.hits = [...data.hits, created]
      return benchHit(replaceHit(created))
    },
    'hits.open': ({ hitId }) => benchHit(row(hitId)),
    'hits.assign': ({ hitId, setUpId }) => {
      const paddle = data.paddles.find(each => each.setUps.some(setUp => setUp.id === setUpId))
      const setUp = paddle?.setUps.find(each => each.id === setUpId)
      return replaceHit({
        ...row(hitId),
        setUpId,
        paddle: paddle?.name ?? null,
        setUp: setUp?.name ?? null,
      })
    },
    'hits.note': ({ hitId, notes }) => replaceHit({ ...row(hitId), notes }),
    'hits.remove': ({ hitId }) => {
      data.hits = data.hits.filter(each => each.hitId !== hitId)
      say({ kind: 'changed', what: 'hits', id: null })
      return null
    },
    'hits.edit': ({ hitId, edit }) =>
      edit.kind === 'decide'
        ? benchHit(replaceHit({ ...row(hitId), verdict: edit.verdict }))
        : refuse('edit-refused', { what: 'The stand-in host keeps no marks.', hint: 'Use a real host.' }),
    'hits.undo': ({ hitId }) => benchHit(row(hitId)),
    'hits.redo': ({ hitId }) => benchHit(row(hitId)),
    'study.list': () => ({ markable: 0, hits: 0, studies: [] }),
    'study.begin': ({ sessionId }) => refuse('not-in-workspace', { what: 'session', id: sessionId }),
    'study.open': ({ studyId }) => refuse('not-in-workspace', { what: 'marking study', id: studyId }),
    'study.mark': ({ studyId }) => refuse('not-in-workspace', { what: 'marking study', id: studyId }),
    'study.takeBack': ({ studyId }) => refuse('not-in-workspace', { what: 'marking study', id: studyId }),
    'study.remove': () => null,
    'study.report': () => ({ people: [], bias: [], reproducibility: null, bench: [], dots: [] }),
    'ratings.table': () => ratingsOf(data).table,
    'ratings.ranks': () => ranksOf(data),
    'ratings.paddle': ({ paddleId }) => pageOf(data, paddleId),
    'ratings.compare': ({ setUpIds }) => comparisonOf(ratingsOf(data), setUpIds),
    'publish.report': () => ({ name: 'report.html', mediaType: 'text/html', base64: btoa('<p>'), notes: [] }),
    'publish.clip': () => ({ name: 'clip.mp4', mediaType: 'video/mp4', base64: btoa('mp4'), notes: [] }),
    'publish.picture': () => ({
      name: 'picture.svg',
      mediaType: 'image/svg+xml',
      base64: btoa('<svg/>'),
      notes: [],
    }),
    'publish.clipFrame': () => ({
      name: 'frame.png',
      mediaType: 'image/png',
      base64: btoa('png'),
      notes: [],
    }),
    'publish.batch': () => ({ made: [] }),
    'publish.looks': () => [],
    'publish.keepLook': () => [],
    'publish.dropLook': () => [],
    'ratings.setRules': ({ rules }) => {
      data.rules = rules
      say({ kind: 'changed', what: 'ratings', id: null })
      return rules
    },
    'export.preview': ({ target }) => emptyPlan(target, false),
    'export.write': ({ target }) => emptyPlan(target, true),
    'export.look': ({ target }) => ({ place: target, kind: kindOf(target), tables: [], mapping: null }),
    'export.undo': ({ target }) => ({ place: target, said: '' }),
    'transfers.list': () => [],
    'import.preview': ({ source }) => refuse('import-nothing', { place: source }),
    'import.write': ({ source }) => refuse('import-nothing', { place: source }),
    'import.undo': () => null,
    'steps.handOver': () => null,
    'bundle.make': ({ path }) => ({ path, bytes: 0 }),
    ...given,
  }

  const stand: StandIn = {
    data,
    seen,
    say,
    handed: [],
    closing: null,
    call: async (name, input, options = {}) => {
      seen.push({ name, input })
      // As over a wire: the page gets a copy, never the host's own objects.
      return structuredClone(await handlers[name](input, options))
    },
    frame: given.frame ?? (async () => greyPicture),
    on: listener => {
      const own = (event: HostEvent) => listener(event)
      listeners.add(own)
      return () => listeners.delete(own)
    },
    pathOf: async file => `/uploaded/${file.name}`,
    areSafe: () => true,
    handOver: calls => void stand.handed.push(calls),
    beforeClose: written => {
      stand.closing = written
    },
  }
  return stand
}

const kindOf = (target: string) => (target.endsWith('.csv') ? 'csv' : 'sqlite')
const emptyPlan = (target: string, written: boolean): ExportPlan => ({
  target,
  kind: kindOf(target),
  mapping: null,
  lines: [],
  written,
})

const greyPicture: FramePicture = { widthPx: 16, heightPx: 16, data: new Uint8Array(384).fill(128) }

function countsOf(data: StandInData, sessionId: string) {
  const own = data.hits.filter(each => each.sessionId === sessionId)
  const inState = (state: HitRow['verdict']['state']) =>
    own.filter(each => each.verdict.state === state).length
  return { hits: own.length, accepted: inState('accepted'), heldBack: inState('held-back') }
}
