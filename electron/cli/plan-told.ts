import type { ExportLine, ExportPlan, RatingRow } from '../../core/contract/workspace.ts'
import { bandText, rpmText, table } from './figures.ts'

const actionWords: Record<ExportLine['action'], string> = {
  add: 'added',
  change: 'changed',
  same: 'left alone',
  'held-back': 'held back',
}

/** An export as a person reads it: what was (or would be) done, line by line, and the sums. */
export function planTold(plan: ExportPlan): string {
  const rows = plan.lines.map(line => [
    actionWords[line.action],
    line.paddle,
    line.setUp,
    figureOf(line.after ?? line.before),
    line.reason,
  ])
  const sums = Object.entries(actionWords).flatMap(([action, word]) => {
    const count = plan.lines.filter(line => line.action === action).length
    return count > 0 ? [`${count} ${word}`] : []
  })
  const where = plan.written ? `Written to ${plan.target}` : `Preview of ${plan.target}; nothing was written`
  return `${table(rows)}${where}: ${sums.join(', ') || 'nothing to write yet'}.\n`
}

const figureOf = (row: RatingRow | null): string =>
  row === null
    ? ''
    : `${rpmText({ rpm: row.meanRpm, band: row.band })} rpm (${bandText(row.band)}), ${row.hits} ${row.hits === 1 ? 'hit' : 'hits'}, ${row.flag}`
