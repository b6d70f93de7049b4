import type { CallContext } from '../../core/contract/calls.ts'
import type { Clip } from '../../core/contract/clip.ts'
import { WhorlError } from '../../core/contract/problem.ts'
import type { ReportOrder } from '../../core/contract/publish.ts'
import { captureFpsOf } from '../../core/marking/capture-fps-of.ts'
import { bearingPicture } from '../../core/picture/bearing-picture.ts'
import type { Report } from '../../core/picture/report/blocks.ts'
import { comparisonReport } from '../../core/picture/report/comparison-report.ts'
import { paddleReport } from '../../core/picture/report/paddle-report.ts'
import { type ReportStyle, reportStyle } from '../../core/picture/report/picture-size.ts'
import type { ClipCheck, ReportedHit } from '../../core/picture/report/sections.ts'
import { sessionReport } from '../../core/picture/report/session-report.ts'
import type { Scene } from '../../core/picture/scene.ts'
import { heldBackReason } from '../../core/ratings/held-back-reason.ts'
import type { Parts } from '../service/parts.ts'
import { rated } from '../service/rating-figures.ts'
import type { HitEvidence } from '../store/workspace.ts'
import { hitEvidence } from './hit-evidence.ts'
import { bearingScene } from './hit-pictures.ts'
import { middleHit } from './middle-hit.ts'
import { figuresOf, type RatingCalls } from './pictures.ts'
import { sessionFigures } from './session-figures.ts'

type Of<K> = Extract<ReportOrder['of'], { kind: K }>

/** Gathers what a report says. The figures are those of the ratings; nothing is computed anew. */
export async function reportOn(
  parts: Parts,
  ratings: RatingCalls,
  order: ReportOrder,
  context: CallContext,
): Promise<Report> {
  const { of } = order
  const style = reportStyle(order)
  if (of.kind === 'paddle') return onPaddle(parts, ratings, of, style, context)
  if (of.kind === 'session') return onSession(parts, of, style)
  if (of.kind === 'all')
    throw new WhorlError('picture-of-what', { kind: 'report', what: 'a paddle, several, or a session' })
  const comparison = await ratings['ratings.compare']({ setUpIds: of.setUpIds }, context)
  const evidence = of.setUpIds.flatMap(setUpId => parts.workspace.evidence({ setUpId }))
  return comparisonReport({ comparison, version: parts.version, methodVersion: methodsOf(evidence), style })
}

async function onPaddle(
  parts: Parts,
  ratings: RatingCalls,
  { setUpId }: Of<'paddle'>,
  style: ReportStyle,
  context: CallContext,
): Promise<Report> {
  const { workspace, version } = parts
  const table = await ratings['ratings.table']({}, context)
  const row = table.rows.find(one => one.setUpId === setUpId)
  if (!row) throw new WhorlError('not-in-workspace', { what: 'set-up', id: setUpId })
  const evidence = workspace.evidence({ setUpId })
  const hits = evidence.map(reported)
  const sessionIds = [...new Set(evidence.map(one => one.row.sessionId))]
  return paddleReport({
    ...{
      row,
      hits,
      version,
      style,
      methodVersion: methodsOf(evidence),
      definition: table.rules.percentileDefinition,
    },
    ranked: table.rows.filter(one => one.rank !== null).length,
    sessions: sessionIds.map(id => ({
      session: workspace.session(id),
      clips: clipChecks(parts, id, new Set(evidence.map(one => one.row.clipId))),
    })),
    placed: figuresOf(row, table, style.figures),
    example: await exampleOf(parts, setUpId, style),
  })
}

/** The plot of the hit from the middle; without its pictures where the clip is not there. */
async function exampleOf(parts: Parts, setUpId: string, { pictures }: ReportStyle): Promise<Scene | null> {
  const middle = middleHit(parts, setUpId)
  if (middle === null) return null
  const hit = hitEvidence(parts, middle)
  if (hit.series.every(series => series.points.length === 0)) return null
  return bearingScene(parts.media, hit, ...pictures).catch(() => bearingPicture(hit, [], ...pictures))
}

function onSession(parts: Parts, { sessionId }: Of<'session'>, style: ReportStyle): Report {
  const { workspace, reader, version } = parts
  reader.readStale({ sessionId })
  const evidence = workspace.evidence({ sessionId })
  const clipIds = new Set(workspace.clips(sessionId).map(({ id }) => id))
  return sessionReport({
    ...{
      version,
      style,
      methodVersion: methodsOf(evidence),
      session: workspace.session(sessionId),
      hits: evidence.map(reported),
    },
    clips: clipChecks(parts, sessionId, clipIds),
    paddles: sessionFigures(evidence),
  })
}

/** The version of the method by which these readings were made; several where they differ. */
const methodsOf = (evidence: readonly HitEvidence[]): string =>
  [...new Set(evidence.flatMap(({ row }) => row.methodVersion ?? []))].toSorted().join(', ') || 'none'

const reported = (evidence: HitEvidence): ReportedHit => ({
  row: evidence.row,
  leftOut: heldBackReason(rated(evidence))?.reason ?? null,
})

function clipChecks({ workspace }: Parts, sessionId: string, clipIds: ReadonlySet<string>): ClipCheck[] {
  const { camera } = workspace.session(sessionId)
  return workspace
    .clips(sessionId)
    .filter(({ id }) => clipIds.has(id))
    .map(({ name, probe }) => ({
      name,
      captureFps: probe && captureFpsOf(probe, camera),
      says: probe ? timesOf(probe) : 'the clip could not be read',
    }))
}

function timesOf({ timestamps, frames }: Clip): string {
  const missing = timestamps.gaps.reduce((sum, gap) => sum + gap.missing, 0)
  return [
    `${frames} frames`,
    timestamps.even ? 'evenly spaced' : 'unevenly spaced',
    missing > 0 ? `${missing} dropped` : 'none dropped',
    timestamps.repeats.length > 0 ? `${timestamps.repeats.length} repeated` : 'none repeated',
  ].join(', ')
}
