import type { ImportLine, ImportPlan } from '../../core/contract/exchange.ts'
import { table } from './figures.ts'

const actionWords: Record<ImportLine['action'], string> = {
  add: 'new',
  change: 'changed',
  same: 'the same',
  'held-back': 'held back',
}
const most = 50

/** An import as a person reads it: what comes or came, and every cell that was not understood. */
export function importTold(plan: ImportPlan): string {
  const worth = plan.lines.filter(line => line.action !== 'same')
  const rows = worth
    .slice(0, most)
    .map(line => [
      `row ${line.row}`,
      actionWords[line.action],
      line.paddle,
      line.setUp ?? '',
      line.reason || `${line.changes.length} ${line.changes.length === 1 ? 'value' : 'values'}`,
    ])
  const unclear = plan.unclear
    .slice(0, most)
    .map(({ row, column, text, what }) => `row ${row}, ${column}: “${text.slice(0, 40)}” (${what})\n`)
  const more = (all: number) => (all > most ? `… and ${all - most} more\n` : '')
  const sums = Object.entries(actionWords).flatMap(([action, word]) => {
    const count = plan.lines.filter(line => line.action === action).length
    return count > 0 ? [`${count} ${word}`] : []
  })
  return [
    table(rows),
    more(worth.length),
    unclear.length > 0
      ? `Not understood, and not brought in:\n${unclear.join('')}${more(plan.unclear.length)}`
      : '',
    ...plan.notes.map(note => `${note}\n`),
    `${plan.written ? `Brought in from ${plan.place}` : `Preview of ${plan.place}; nothing was changed`}: ${sums.join(', ') || 'no rows'}.\n`,
  ].join('')
}
