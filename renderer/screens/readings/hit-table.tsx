import { memo, useCallback } from 'react'
import type { ListedHit } from '../../../core/contract/workspace.ts'
import { RowGrid } from '../../components/row-grid.tsx'
import { RpmAxis } from '../../components/rpm-axis.tsx'
import type { RpmScale } from '../../components/rpm-scale.ts'
import { SortHead } from '../../components/sort-head.tsx'
import { columns } from './columns.tsx'
import type { View } from './table-view.ts'

type HitTableProps = {
  rows: ListedHit[]
  scale: RpmScale
  sort: View['sort']
  onSort: (sort: View['sort']) => void
  selected: string | null
  onSelect: (hitId: string) => void
}

const fromTheTop = ['rpm', 'band', 'counted', 'day']

/** The quiet table of hits. */
export function HitTable({ rows, scale, sort, onSort, selected, onSelect }: HitTableProps) {
  const cellsOf = useCallback((row: ListedHit) => <Cells row={row} scale={scale} />, [scale])
  return (
    <RowGrid
      className="hit-table"
      label="Readings"
      rows={rows}
      idOf={row => row.hitId}
      at={selected}
      onAt={onSelect}
      rowHeightPx={36}
      headHeightPx={44}
      cellsOf={cellsOf}
      head={columns.map(({ column, word }) => (
        <SortHead
          key={column}
          column={column}
          sort={sort}
          onSort={onSort}
          firstDown={fromTheTop.includes(column)}
          word={word}
        >
          {column === 'band' && <RpmAxis scale={scale} />}
        </SortHead>
      ))}
    />
  )
}

const Cells = memo(({ row, scale }: { row: ListedHit; scale: RpmScale }) =>
  columns.map(({ column, cell }) => (
    // biome-ignore lint/a11y: a grid of divs, as its rows.
    <div key={column} role="gridcell" data-column={column}>
      {cell(row, scale)}
    </div>
  )),
)
