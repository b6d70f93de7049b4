import type { ImportLine, ImportRules, UnclearCell } from '../../core/contract/exchange.ts'
import type { Metric, MetricValue } from '../../core/contract/metrics.ts'
import type { Paddle } from '../../core/contract/workspace.ts'
import { almostSameNames } from '../../core/ratings/almost-same-names.ts'
import type { Grid, SheetCell } from '../export/sheet.ts'
import type { MetricRow } from '../store/metrics.ts'
import type { ColumnReader } from './column-kinds.ts'
import { isFormulaText, readCells } from './read-cells.ts'

type Known = { paddles: readonly Paddle[]; metrics: readonly Metric[] }
type Places = { paddle: number; setUp: number | null; columns: readonly ColumnReader[] }
export type PlannedRows = { lines: ImportLine[]; rows: MetricRow[]; unclear: UnclearCell[] }

const longestName = 200

/** What each row of a table would bring into the workspace. */
export function planRows(
  grid: Grid,
  places: Places,
  names: ImportRules['names'],
  { paddles, metrics }: Known,
): PlannedRows {
  const planned: PlannedRows = { lines: [], rows: [], unclear: [] }
  const byName = new Map(paddles.map(paddle => [paddle.name, paddle]))
  const almost = almostSameNames(paddles.map(({ name }) => name))
  const answers = new Map(names.map(({ paddle, as }) => [paddle, as]))
  const stored = new Map(metrics.map(one => [placeKey(one.paddleId, one.setUpId, one.name), one]))
  const firstRows = new Map<string, { row: number; paddle: string }>()

  for (const [i, cells] of grid.rows.entries()) {
    const row = grid.numbers[i]!
    const { values, unclear } = readCells(cells, row, places.columns)
    const given = nameIn(cells[places.paddle])
    if (given.what !== null) {
      if (values.length > 0 || given.text !== '')
        planned.unclear.push({ row, column: grid.header[places.paddle]!, text: given.text, what: given.what })
      continue
    }
    planned.unclear.push(...unclear)
    const paddle = answers.get(given.text) ?? given.text
    const setUp = places.setUp === null ? null : String(cells[places.setUp]?.value ?? '').trim() || null
    const known = byName.get(paddle)
    const line = { row, paddle, setUp, reason: '', almost: [] as string[], changes: [] }
    const heldBack = (reason: string, near: string[] = []) =>
      planned.lines.push({ ...line, action: 'held-back', reason, almost: near })

    const near = known || answers.has(given.text) ? [] : almost(paddle)
    const key = `${paddle.toLowerCase()}\0${(setUp ?? '').toLowerCase()}`
    const first = firstRows.get(key)
    if (near.length > 0) {
      heldBack(
        `The workspace has ${near.map(name => `“${name}”`).join(', ')}: say whether it is the same.`,
        near,
      )
      continue
    }
    if (first) {
      heldBack(`Row ${first.row} names ${first.paddle}${setUp ? `, ${setUp},` : ''} already.`)
      continue
    }
    firstRows.set(key, { row, paddle })
    const setUpId = setUp === null ? null : known?.setUps.find(({ name }) => name === setUp)?.id
    const before = ({ name }: MetricValue) =>
      known && setUpId !== undefined ? stored.get(placeKey(known.id, setUpId, name)) : undefined
    const changed = values.filter(one => before(one)?.value !== one.value || before(one)?.unit !== one.unit)
    const isNew = !known || setUpId === undefined || !values.some(one => before(one))
    planned.lines.push({
      ...line,
      action: changed.length === 0 && known ? 'same' : isNew ? 'add' : 'change',
      changes: changed.map(one => ({
        column: one.column,
        before: before(one)?.value ?? null,
        after: one.value,
      })),
    })
    planned.rows.push({ paddle, setUp, values: values.map(({ column: _, ...value }) => value) })
  }
  return planned
}

const placeKey = (paddleId: string, setUpId: string | null, name: string) =>
  `${paddleId}\0${setUpId ?? ''}\0${name.toLowerCase()}`

function nameIn(cell: SheetCell | undefined): { text: string; what: string | null } {
  const text = String(cell?.value ?? '').trim()
  if (cell && isFormulaText(cell)) return { text, what: 'a formula, not a name' }
  if (text === '') return { text, what: 'the paddle has no name here' }
  if (text.includes('\0')) return { text: '', what: 'it holds a NUL' }
  return { text, what: text.length > longestName ? `a name longer than ${longestName} characters` : null }
}
