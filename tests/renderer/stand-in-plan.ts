import type { ExportPlan, RatingRow } from '../../core/contract/workspace.ts'
import type { StandInData } from './stand-in-data.ts'

/** A plan of all four kinds of line over the paddles of the data, with a written target's state after. */
export function planOf(target: string, data: StandInData, written: boolean): ExportPlan {
  const row = (paddle: string, setUp: string, meanRpm: number, half: number, hits: number): RatingRow => ({
    paddle,
    setUp,
    meanRpm,
    band: { lowRpm: meanRpm - half, highRpm: meanRpm + half, level: 0.95 },
    hits,
    flag: 'clear',
    limit: null,
    settledReason: '',
    captureFps: '240',
    methodVersion: '1',
    date: '2026-05-14',
    evidence: 'e'.repeat(64),
  })
  const lines: ExportPlan['lines'] = data.paddles.flatMap((paddle, index) =>
    paddle.setUps.map((setUp, at): ExportPlan['lines'][number] => {
      const after = row(paddle.name, setUp.name, 1790 + index * 61 + at * 18, 34 - index * 2, 12 + index * 3)
      const own = { paddle: paddle.name, setUp: setUp.name, reason: '', changes: [], almost: [] }
      const kind = (index * 3 + at) % 7
      if (kind === 6) {
        const reason = '2 of its hits are ambiguous and wait for a choice.'
        return { ...own, reason, action: 'held-back', before: null, after: null }
      }
      if (kind === 1 || kind === 4) {
        const before = row(paddle.name, setUp.name, after.meanRpm - 23, 52 - index * 2, after.hits - 5)
        return { ...own, action: 'change', before: { ...before, date: '2026-04-26' }, after }
      }
      if (kind === 3) return { ...own, action: 'same', before: after, after }
      const near = index === 6 ? ({ flag: 'near-ceiling', limit: 'smear' } as const) : {}
      return { ...own, action: 'add', before: null, after: { ...after, ...near } }
    }),
  )
  return { target, kind: target.endsWith('.csv') ? 'csv' : 'sqlite', mapping: null, lines, written }
}
