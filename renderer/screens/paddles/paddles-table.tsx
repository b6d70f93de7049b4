import { memo } from 'react'
import type { TableRow } from '../../../core/contract/standings.ts'
import { RowGrid } from '../../components/row-grid.tsx'
import { RpmAxis } from '../../components/rpm-axis.tsx'
import { SortHead } from '../../components/sort-head.tsx'
import type { ColumnLook, Seen } from './columns.tsx'
import type { Column, View } from './table-view.ts'

type PaddlesTableProps = {
  rows: TableRow[]
  columns: ColumnLook[]
  seen: Seen
  sort: View['sort']
  onSort: (sort: View['sort']) => void
  at: string | null
  onAt: (setUpId: string) => void
  chosen: readonly string[]
  onChoose: (setUpId: string) => void
}

const fromTheStart: readonly Column[] = ['rank', 'paddle', 'flag']
const nameOf = (column: Column) => (typeof column === 'number' ? 'metric' : column)

/** The table of paddles, each in its set-up; a row's box chooses it for comparing. */
export function PaddlesTable(props: PaddlesTableProps) {
  const { rows, columns, seen, sort, onSort, at, onAt, chosen, onChoose } = props
  const metrics = columns.filter(({ column }) => typeof column === 'number').length
  return (
    <RowGrid
      className="paddles-table"
      label="Paddles"
      style={{
        '--metrics': String(metrics),
        '--metric-tracks': metrics > 0 ? `repeat(${metrics}, 5.75rem)` : undefined,
      }}
      rows={rows}
      idOf={row => row.setUpId}
      at={at}
      onAt={onAt}
      rowHeightPx={48}
      headHeightPx={48}
      cellsOf={row => (
        <Cells
          row={row}
          columns={columns}
          seen={seen}
          chosen={chosen.includes(row.setUpId)}
          onChoose={onChoose}
        />
      )}
      head={
        <>
          {/* biome-ignore lint/a11y: a grid of divs, as its rows. */}
          <div role="columnheader" data-column="choose">
            <span className="unseen">Compare</span>
          </div>
          {columns.map(({ column, word, unit }) => (
            <SortHead
              key={column}
              column={column}
              name={nameOf(column)}
              sort={sort}
              onSort={onSort}
              firstDown={!fromTheStart.includes(column)}
              word={
                <>
                  {word}
                  {unit && <span className="unit"> {unit}</span>}
                </>
              }
            >
              {column === 'dots' && <RpmAxis scale={seen.scale} />}
            </SortHead>
          ))}
        </>
      }
    />
  )
}

type CellsProps = Pick<PaddlesTableProps, 'columns' | 'seen' | 'onChoose'> & {
  row: TableRow
  chosen: boolean
}

const Cells = memo(({ row, columns, seen, chosen, onChoose }: CellsProps) => (
  <>
    {/* biome-ignore lint/a11y: a grid of divs, as its rows. */}
    <div role="gridcell" data-column="choose">
      <input
        type="checkbox"
        tabIndex={-1}
        aria-label={`Compare ${row.paddle}, ${row.setUp}`}
        checked={chosen}
        disabled={row.meanRpm === null}
        onChange={() => onChoose(row.setUpId)}
      />
    </div>
    {columns.map(({ column, cell }) => (
      // biome-ignore lint/a11y: a grid of divs, as its rows.
      <div key={column} role="gridcell" data-column={nameOf(column)}>
        {cell(row, seen)}
      </div>
    ))}
  </>
))
