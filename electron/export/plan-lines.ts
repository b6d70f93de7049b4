import type { Cells, Mapping } from '../../core/contract/exchange.ts'
import type { ExportLine } from '../../core/contract/workspace.ts'
import { almostSameNames } from '../../core/ratings/almost-same-names.ts'
import type { HitEvidence } from '../store/workspace.ts'
import { cellsOf, ratingRowOf } from './columns.ts'
import type { Gathered } from './gather.ts'
import { columnOf, keyCells, type Layout, valueFieldsOf } from './layout.ts'
import { type ExistingRow, type Found, isSameField, keyOf, type RowChange } from './target.ts'

/** A line with the row that it writes; null where it writes none. */
export type PlannedLine = { line: ExportLine; change: RowChange | null }

const stock = 'stock'

/**
 * What an export does with each paddle and set-up: one line for its figure, and one for the hits that are
 * held back from it. Rows of others in the target get no line: they stay as they are.
 */
export function planLines(
  gathered: readonly Gathered[],
  { rows: existing, kept, cannotAdd }: Found,
  layout: Layout,
  names: Mapping['names'],
): PlannedLine[] {
  const there = new Map(existing.map(found => [keyOf(found), found]))
  const answers = new Map(names.map(({ paddle, as }) => [paddle, as]))
  const ours = new Set(gathered.map(({ paddle }) => answers.get(paddle) ?? paddle))
  const theirs = new Set(existing.map(({ paddle }) => paddle))
  const almost = almostSameNames([...theirs].filter(name => !ours.has(name)))
  const taken = new Set<string>()
  return gathered.flatMap(one => {
    const as = answers.get(one.paddle) ?? one.paddle
    const target = { paddle: as, setUp: layout.columns.set_up ? one.setUp : '' }
    const found = there.get(keyOf(target))
    const unclear = theirs.has(as) || answers.has(one.paddle) ? [] : almost(as)
    const why =
      heldBackByTable(one, layout, unclear, taken.has(keyOf(target))) ??
      formulaIn(one, found, layout, kept) ??
      (found || cannotAdd === null ? null : `A row cannot be added: ${cannotAdd}.`)
    if (one.row && why === null) taken.add(keyOf(target))
    const figure = one.row && why === null ? [figureLine(one, one.row, target, found, layout, kept)] : []
    const heldBack = [
      ...(one.row && why !== null ? [held(one, why, { almost: unclear })] : []),
      ...heldBackLine(one, found),
    ]
    return [...figure, ...heldBack.map(line => ({ line, change: null }))]
  })
}

function heldBackByTable(
  { setUp }: Gathered,
  layout: Layout,
  unclear: readonly string[],
  isTaken: boolean,
): string | null {
  if (!layout.columns.set_up && setUp !== stock)
    return `The table has no column for the set-up; only “${stock}” goes into it.`
  if (isTaken) return 'Another paddle goes into the same row.'
  if (unclear.length > 0)
    return `The table has ${unclear.map(name => `“${name}”`).join(', ')}: say whether it is the same paddle.`
  return null
}

/** A person's formula in a cell that would be written. */
function formulaIn(
  { row }: Gathered,
  there: ExistingRow | undefined,
  layout: Layout,
  kept: Found['kept'],
): string | null {
  if (!row || !there?.formulas) return null
  const told = cellsOf(row, there.formulas)
  const field = there.formulas.find(
    one =>
      one in told && layout.columns[one] && !isSameField(one, there.cells[one], kept(one, told[one] ?? null)),
  )
  return field && field !== 'paddle' && field !== 'set_up'
    ? `The table has a formula in ${columnOf(layout, field)}; Whorl does not write over it.`
    : null
}

function figureLine(
  { paddle, setUp }: Gathered,
  row: NonNullable<Gathered['row']>,
  target: { paddle: string; setUp: string },
  there: ExistingRow | undefined,
  layout: Layout,
  kept: Found['kept'],
): PlannedLine {
  const fields = valueFieldsOf(layout)
  const told = cellsOf(row, fields)
  const after: Cells = Object.fromEntries(fields.map(field => [field, kept(field, told[field] ?? null)]))
  const changed = fields.filter(field => !there || !isSameField(field, there.cells[field], after[field]))
  const action = !there ? 'add' : changed.length === 0 ? 'same' : 'change'
  const before = there ? ratingRowOf({ ...there.cells, paddle, set_up: setUp }) : null
  return {
    line: {
      action,
      paddle,
      setUp,
      reason: reasonOf(action, before === null && layout.own),
      before,
      after: row,
      changes: changed.map(field => ({
        column: columnOf(layout, field),
        before: there?.cells[field] ?? null,
        after: after[field] ?? null,
      })),
      almost: [],
    },
    change:
      action === 'same'
        ? null
        : { ...target, isNew: !there, cells: there ? after : { ...keyCells(layout, target), ...after } },
  }
}

function reasonOf(action: ExportLine['action'], isStrange: boolean): string {
  if (action !== 'change') return ''
  return isStrange ? 'What stands there is not what Whorl writes.' : 'Its hits give another figure now.'
}

const held = (
  { paddle, setUp }: { paddle: string; setUp: string },
  reason: string,
  also: Partial<Pick<ExportLine, 'before' | 'almost'>> = {},
): ExportLine => ({
  action: 'held-back',
  paddle,
  setUp,
  reason,
  before: null,
  after: null,
  changes: [],
  almost: [],
  ...also,
})

function heldBackLine(one: Gathered, there: ExistingRow | undefined): ExportLine[] {
  if (one.heldBack.length === 0) return []
  const stays = !one.row && there ? ' The row that was written before stays as it is.' : ''
  const before =
    one.row || !there ? null : ratingRowOf({ ...there.cells, paddle: one.paddle, set_up: one.setUp })
  return [held(one, `${heldBackWords(one.heldBack)}${stays}`, { before })]
}

/** The line for accepted hits that belong to no paddle yet. */
export function unassignedLine(evidence: readonly HitEvidence[]): ExportLine[] {
  const hits = evidence.filter(hit => hit.row.setUpId === null && hit.row.verdict.state === 'accepted')
  if (hits.length === 0) return []
  const reason = heldBackWords(hits.map(hit => ({ hit, reason: 'No paddle is given yet.' })))
  return [held({ paddle: '', setUp: '' }, reason)]
}

/** "2 hits (drive 01.mp4 from frame 12, …): Not accepted yet. …": each reason once, with its hits. */
function heldBackWords(heldBack: readonly Pick<Gathered['heldBack'][number], 'hit' | 'reason'>[]): string {
  const byReason = new Map<string, HitEvidence[]>()
  for (const { hit, reason } of heldBack) byReason.set(reason, [...(byReason.get(reason) ?? []), hit])
  return [...byReason].map(([reason, hits]) => `${hitsInWords(hits)}: ${reason}`).join(' ')
}

const named = 2

function hitsInWords(hits: HitEvidence[]): string {
  const some = hits.slice(0, named).map(({ row }) => `${row.clipName} from frame ${row.window.fromFrame}`)
  const more = hits.length > named ? ', …' : ''
  return `${hits.length} ${hits.length === 1 ? 'hit' : 'hits'} (${some.join(', ')}${more})`
}
