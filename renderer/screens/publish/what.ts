import type { PictureKind, ReportOrder, Subject } from '../../../core/contract/publish.ts'
import type { HitRow } from '../../../core/contract/workspace.ts'
import type { PublishedThing } from '../../state/route.ts'

/** What can be made: a picture of some kind, a report, an annotated clip, or lines to paste. */
export type Made = PictureKind | 'report' | 'clip' | 'lines'

export const thingWords: Record<PublishedThing, string> = {
  hit: 'A hit',
  paddle: 'A paddle',
  session: 'A session',
  comparison: 'A comparison',
  ranking: 'The ranking',
}

export const madeOf: Record<PublishedThing, readonly Made[]> = {
  hit: ['bearing', 'flight', 'turned-back', 'clip'],
  paddle: ['dots', 'percentiles', 'rate', 'bearing', 'flight', 'turned-back', 'report', 'lines'],
  session: ['hits', 'dots', 'report', 'lines'],
  comparison: ['difference', 'dots', 'ranking', 'report', 'lines'],
  ranking: ['ranking', 'dots', 'lines'],
}

export const madeWords: Record<Made, string> = {
  bearing: 'Bearing over time',
  flight: 'The flight in one photograph',
  'turned-back': 'Balls turned back',
  hits: 'Strip of every hit',
  dots: 'Hits as dots',
  ranking: 'Ranking with bands',
  percentiles: 'Percentile in every metric',
  difference: 'Difference of two',
  rate: 'Band against frame rate',
  report: 'Report',
  clip: 'Annotated clip',
  lines: 'Lines to paste',
}

export const isPicture = (made: Made): made is PictureKind =>
  made !== 'report' && made !== 'clip' && made !== 'lines'

/** The same thing in the words of an order for a picture. */
export function subjectOf(of: PublishedThing, ids: readonly string[]): Subject {
  const [id] = ids
  if (of === 'ranking' || id === undefined) return {}
  if (of === 'hit') return { hitId: id }
  return of === 'session' ? { sessionId: id } : { setUpIds: [...ids] }
}

/** The same for a report; null where there is none to be made of it. */
export function reportedOf(of: PublishedThing, ids: readonly string[]): ReportOrder['of'] | null {
  const [id] = ids
  if (of === 'ranking') return { kind: 'all' }
  if (id === undefined || of === 'hit') return null
  if (of === 'session') return { kind: 'session', sessionId: id }
  if (of === 'paddle' || ids.length === 1) return { kind: 'paddle', setUpId: id }
  return { kind: 'comparison', setUpIds: [...ids] }
}

/** Whether enough is chosen for a picture of this kind. */
export function isEnough(of: PublishedThing, ids: readonly string[], made: Made): boolean {
  if (of === 'ranking') return true
  if (of === 'comparison') return made === 'difference' ? ids.length === 2 : ids.length >= 2
  return ids.length === 1
}

/** What is shown of a hit while one is chosen. */
export type ChosenHit = Pick<HitRow, 'hitId' | 'sessionId' | 'clipName' | 'window' | 'paddle'> & {
  reading: Pick<NonNullable<HitRow['reading']>, 'rpm'> | null
}
