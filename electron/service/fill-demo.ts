import { join } from 'node:path'
import type { CallContext } from '../../core/contract/calls.ts'
import type { Marks } from '../../core/contract/marks.ts'
import { WhorlError } from '../../core/contract/problem.ts'
import type { BenchHit, ClipRecord, SessionDetails, SetUp } from '../../core/contract/workspace.ts'
import { clicksOf, type Demo, demoIn } from './demo-file.ts'
import { missingEdits } from './missing-edits.ts'
import type { Parts } from './parts.ts'

/**
 * Brings the sample clips of a folder into the workspace, where they lie: their paddles, sessions, clicks
 * and readings. Clear and near-ceiling hits are accepted, ambiguous ones held back. What is there already
 * stays as it is, so that it can be done again. Answers the first session.
 */
export async function fillDemo(parts: Parts, folder: string, job: CallContext): Promise<string> {
  const { paddles, sessions } = demoIn(folder)
  const setUps = paddles.map(paddle => enterPaddle(parts, paddle))
  const entries = sessions.flatMap(({ details, clips }) => {
    const sessionId = enterSession(parts, details)
    return clips.map(({ clip, paddle, setUp }) => {
      const setUpId = setUps.find(entered => entered.paddle === paddle)?.idOf(setUp) ?? null
      const looking = enterClip(parts, sessionId, join(folder, clip), job)
      return { sessionId, clip, setUpId, looking }
    })
  })
  await Promise.allSettled(entries.map(entry => entry.looking))
  for (const [i, { clip, looking, setUpId }] of entries.entries()) {
    if (job.signal.aborted) throw new WhorlError('cancelled', { what: 'The demo' })
    job.progress({ what: clip, done: i, total: entries.length })
    enterHit(parts, await looking, clicksOf(folder, clip), setUpId)
  }
  job.progress({ what: 'clips', done: entries.length, total: entries.length })
  return entries[0]!.sessionId
}

function enterPaddle({ workspace }: Parts, { name, notes, setUps }: Demo['paddles'][number]) {
  let paddle = workspace.paddles().find(p => p.name === name) ?? workspace.createPaddle({ name, notes })
  for (const setUp of setUps) {
    if (!paddle.setUps.some(s => s.name === setUp.name)) paddle = workspace.addSetUp(paddle.id, setUp)
  }
  const idOf = (setUp: string) => paddle.setUps.find((s: SetUp) => s.name === setUp)?.id ?? null
  return { paddle: name, idOf }
}

function enterSession({ workspace }: Parts, details: SessionDetails): string {
  const there = workspace
    .sessions()
    .find(
      ({ day, place, camera }) =>
        day === details.day && place === details.place && camera.name === details.camera.name,
    )
  return (there ?? workspace.createSession(details)).id
}

async function enterClip(
  { workspace, prober }: Parts,
  sessionId: string,
  path: string,
  { signal }: CallContext,
): Promise<ClipRecord> {
  const there = workspace.clips(sessionId).find(clip => clip.path === path)
  if (there?.probe) return there
  const empty = { path, probe: null, problem: null, timestampsSeconds: [] }
  return prober.complete((there ?? workspace.addClip(sessionId, empty)).id, { signal })
}

function enterHit(parts: Parts, clip: ClipRecord, marks: Marks, setUpId: string | null): void {
  const { workspace, reader } = parts
  const indexes = marks.frames.map(frame => frame.index)
  const window = { fromFrame: Math.min(...indexes), toFrame: Math.max(...indexes) }
  const row = workspace.hits({ clipId: clip.id }).find(hit => hit.window.fromFrame === window.fromFrame)
  const hit = row ? workspace.hit(row.hitId) : workspace.createHit(clip.id, window)
  if (hit.row.verdict.state !== 'open') return
  for (const edit of missingEdits(hit.marks, marks)) workspace.saveEdit(hit.row.hitId, edit)
  if (hit.row.setUpId === null) workspace.assignHit(hit.row.hitId, setUpId)
  decide(parts, reader.read(hit.row.hitId))
}

/** As a careful person would: what has one explanation is accepted, what has several is held back. */
function decide({ workspace, reader }: Parts, { row: { hitId, reading } }: BenchHit): void {
  if (reading === null || reading.rpm === null || reading.flag === 'too-few-frames') return
  const verdict =
    reading.flag === 'ambiguous'
      ? { state: 'held-back' as const, reason: reading.reasons[0] ?? '' }
      : { state: 'accepted' as const, reason: '' }
  workspace.saveEdit(hitId, { kind: 'decide', verdict })
  reader.read(hitId)
}
