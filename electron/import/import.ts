import type { ImportPlan, ImportRules } from '../../core/contract/exchange.ts'
import { WhorlError } from '../../core/contract/problem.ts'
import { guessMapping } from '../export/guess-mapping.ts'
import { openTarget } from '../export/open-target.ts'
import { cellName, type Grid } from '../export/sheet.ts'
import type { ImportWayBack } from '../store/metrics.ts'
import type { Workspace } from '../store/workspace.ts'
import { columnReaders } from './column-kinds.ts'
import { type PlannedRows, planRows } from './plan-rows.ts'

/** What a table would bring, and every cell that was not understood. Changes nothing. */
export async function previewImport(
  workspace: Workspace,
  source: string,
  rules: ImportRules,
): Promise<ImportPlan> {
  return (await planned(workspace, source, rules)).plan
}

/** Brings it in, all or nothing. The workspace keeps the way back. */
export async function writeImport(
  workspace: Workspace,
  source: string,
  rules: ImportRules,
): Promise<ImportPlan> {
  const { plan, rows } = await planned(workspace, source, rules)
  const wayBack = workspace.importMetrics(rows, plan.place)
  const { changed, paddles, setUps } = wayBack
  if (changed.length + paddles.length + setUps.length > 0)
    workspace.addTransfer({
      kind: 'import',
      place: plan.place,
      said: `${paddles.length} paddles added, ${changed.length} values`,
      wayBack,
    })
  return { ...plan, written: true }
}

/** Takes an import back. Throws `undo-refused` when a value of it was changed since. */
export function undoImport(workspace: Workspace, transferId: string): void {
  const transfer = workspace.transfers().find(({ id, kind }) => id === transferId && kind === 'import')
  const wayBack = workspace.wayBackOf<ImportWayBack>(transferId)
  if (!transfer || !wayBack) throw new WhorlError('not-in-workspace', { what: 'import', id: transferId })
  if (!transfer.canUndo)
    throw new WhorlError('undo-refused', { what: 'another import came after it, or it is undone' })
  workspace.undoImport(wayBack)
  workspace.markUndone(transferId)
}

async function planned(workspace: Workspace, source: string, rules: ImportRules) {
  const target = openTarget(source, workspace.file)
  const tables = (await target.tables()).map(({ table, columns }) => ({
    table,
    columns,
    guess: guessMapping(table, columns),
  }))
  const chosen =
    rules.table === null
      ? (tables.find(({ guess }) => guess !== null) ?? tables[0])
      : tables.find(({ table }) => table === rules.table)
  if (!chosen) throw new WhorlError('import-nothing', { place: target.place })
  const { grid, notes } = withOwnNames(await target.grid(chosen.table))
  const paddleColumn = rules.paddleColumn ?? chosen.guess?.columns.paddle
  const setUpColumn = (rules.setUpColumn ?? chosen.guess?.columns.set_up) || null
  const paddle = grid.header.indexOf(paddleColumn ?? '')
  if (paddleColumn === undefined || paddle < 0)
    throw new WhorlError('import-no-paddle', {
      place: target.place,
      columns: `${grid.header.slice(0, 12).join(', ')}${grid.header.length > 12 ? ', …' : ''}`,
    })
  const setUp = setUpColumn === null ? -1 : grid.header.indexOf(setUpColumn)
  const places = grid.header.flatMap((name, place) =>
    name === '' || place === paddle || place === setUp || rules.leftOut.includes(name) ? [] : [place],
  )
  const readers = columnReaders(grid.header, places, grid.rows)
  const rows: PlannedRows = planRows(
    grid,
    { paddle, setUp: setUp < 0 ? null : setUp, columns: readers },
    rules.names,
    { paddles: workspace.paddles(), metrics: workspace.metrics() },
  )
  const plan: ImportPlan = {
    place: target.place,
    kind: target.kind,
    tables,
    table: chosen.table,
    paddleColumn,
    setUpColumn: setUp < 0 ? null : setUpColumn,
    columns: readers.map(({ place: _, mark: _mark, ...column }) => column),
    lines: rows.lines,
    unclear: rows.unclear,
    notes,
    written: false,
  }
  return { plan, rows: rows.rows }
}

/** Each column by a name of its own; those without one are left out, and said. */
function withOwnNames(grid: Grid): { grid: Grid; notes: string[] } {
  const notes: string[] = []
  const seen = new Map<string, number>()
  const header = grid.header.map((name, place) => {
    const key = name.trim().toLowerCase()
    if (key === '') {
      const used = grid.rows.some(row => (row[place]?.value ?? '') !== '')
      if (used) notes.push(`Column ${cellName(place, 1).replace('1', '')} has no header and is left out.`)
      return ''
    }
    const count = (seen.get(key) ?? 0) + 1
    seen.set(key, count)
    if (count > 1)
      notes.push(`The header ${name} is there more than once; this one is called ${name} ${count}.`)
    return count > 1 ? `${name} ${count}` : name
  })
  return { grid: { ...grid, header }, notes }
}
