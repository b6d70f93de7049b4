import { createHash } from 'node:crypto'
import { join } from 'node:path'
import { setImmediate as breathe } from 'node:timers/promises'
import type { HitMarks, Verdict } from '../../../core/contract/bench.ts'
import type { CallContext } from '../../../core/contract/calls.ts'
import type { Clip } from '../../../core/contract/clip.ts'
import { WhorlError } from '../../../core/contract/problem.ts'
import type { Reading } from '../../../core/contract/reading.ts'
import { marksDocumentOf } from '../../../core/marking/marks-document-of.ts'
import { methodVersion } from '../../../core/spin/method-version.ts'
import { readMarks } from '../../../core/spin/read-marks.ts'
import type { Workspace } from '../../store/workspace.ts'
import { keepRatingRules, ratingRulesOf } from '../rating-rules.ts'
import { type Chance, chanceOf } from './chance.ts'
import { inventMarks, picture } from './invented-marks.ts'
import { type InventedSession, type InventedSetUp, inventSeason, reference, stock } from './season-plan.ts'

const seed = 2026
const source = 'invented for the demo'
const framesAClip = 60

/**
 * A season of invented paddles, so that tables and comparisons have something to show: values measured
 * elsewhere, and hits whose marks a simulator made and whose readings are really read from them. Their
 * clips never were. A session that is there already stays as it is.
 */
export async function fillSeason(
  workspace: Workspace,
  folder: string,
  { signal, progress }: Pick<CallContext, 'signal' | 'progress'>,
): Promise<void> {
  const { metrics, sessions } = inventSeason(chanceOf(seed))
  workspace.importMetrics(metrics, source)
  const setUpIds = enterSetUps(workspace, sessions)
  const there = new Set(workspace.sessions().map(({ day, place }) => `${day} ${place}`))
  for (const [at, session] of sessions.entries()) {
    if (there.has(`${session.details.day} ${session.details.place}`)) continue
    const sessionId = workspace.createSession(session.details).id
    const chance = chanceOf(seed + 1 + at)
    for (const { of, count } of session.hits) {
      if (signal.aborted) throw new WhorlError('cancelled', { what: 'The demo' })
      progress({ what: 'the invented season', done: at, total: sessions.length })
      const name = `invented ${of.paddle}, ${of.setUp}.mp4`
      const clip = clipOf(join(folder, 'invented', name), session.details.day)
      const clipId = enterClip(workspace, sessionId, clip)
      const setUpId = setUpIds(of)
      const hits = Array.from({ length: count }, (_, i) => ({
        clipId,
        setUpId,
        ...inventHit(session, of, clip, i, chance),
      }))
      workspace.enterHits(hits, methodVersion)
      await breathe()
    }
  }
  const rules = ratingRulesOf(workspace)
  if (rules.referenceSetUpId === null)
    keepRatingRules(workspace, { ...rules, referenceSetUpId: setUpIds({ ...reference }) })
}

/** Makes the paddles and set-ups that were hit, where they are not there; answers how to find their ids. */
function enterSetUps(workspace: Workspace, sessions: readonly InventedSession[]) {
  const paddles = new Map(workspace.paddles().map(paddle => [paddle.name, paddle]))
  for (const { paddle: name, setUp } of sessions.flatMap(({ hits }) => hits.map(({ of }) => of))) {
    let paddle = paddles.get(name) ?? workspace.createPaddle({ name, notes: '' })
    if (!paddle.setUps.some(one => one.name === setUp))
      paddle = workspace.addSetUp(paddle.id, { name: setUp, notes: '' })
    paddles.set(name, paddle)
  }
  return ({ paddle, setUp }: Pick<InventedSetUp, 'paddle' | 'setUp'>): string =>
    paddles.get(paddle)!.setUps.find(one => one.name === setUp)!.id
}

function inventHit(
  { details, captureError, dayFactor }: InventedSession,
  { paddle, rpm, hitSdRpm, setUp }: InventedSetUp,
  clip: Clip,
  i: number,
  chance: Chance,
): { marks: HitMarks; reading: Reading } {
  const fate = chance.share()
  const mishit = fate < 0.045 && paddle !== reference.paddle
  const hit = {
    rpm: Math.max(300, (mishit ? 0.72 : 1) * dayFactor * (rpm + chance.normal(hitSdRpm))),
    frames: fate > 0.975 ? 4 : 10,
    fromFrame: 8 * i,
    frameSeconds: 1 / (240 * captureError),
    camera: details,
  }
  const marks = inventMarks(hit, chance)
  const reading = readMarks(
    marksDocumentOf({
      hit: marks,
      clip,
      frameTimesSeconds: timesSeconds,
      session: details,
      captureFps: 240,
    }).marks!,
  )
  const noticed = mishit && setUp === stock && chance.share() < 0.5
  return { marks: { ...marks, verdict: verdictOn(reading, noticed) }, reading }
}

const timesSeconds = Array.from({ length: framesAClip }, (_, i) => i / 240)

/** As a careful person would decide; some mishits are heard, others are left for the rule to find. */
function verdictOn(reading: Reading, heard: boolean): Verdict {
  if (heard) return { state: 'held-back', reason: 'Off the edge, one could hear it.' }
  if (reading.rpm === null || reading.flag === 'too-few-frames') return { state: 'open', reason: '' }
  if (reading.flag === 'ambiguous') return { state: 'held-back', reason: reading.reasons[0] ?? '' }
  return { state: 'accepted', reason: '' }
}

function enterClip(workspace: Workspace, sessionId: string, probe: Clip): string {
  return workspace.addClip(sessionId, {
    path: probe.path,
    probe,
    problem: null,
    timestampsSeconds: timesSeconds,
  }).id
}

const clipOf = (path: string, day: string): Clip => ({
  schema: 'whorl.clip/1',
  path,
  sha256: createHash('sha256').update(`${source} ${path} ${day}`).digest('hex'),
  bytes: 0,
  container: 'mp4',
  codec: 'h264',
  pixelFormat: 'yuv420p',
  ...picture,
  rotationDeg: 0,
  frames: framesAClip,
  durationSeconds: framesAClip / 240,
  playbackFps: 240,
  timestamps: { tickSeconds: null, even: true, gaps: [], repeats: [] },
  capture: { fps: 240, source: 'metadata', relativeUncertainty: null },
  warnings: [],
})
