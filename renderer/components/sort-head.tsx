import type { ReactNode } from 'react'

export type Sort<Column> = { column: Column; down: boolean }
type SortHeadProps<Column> = {
  column: Column
  /** As the style sheet calls the column. */
  name?: string
  sort: Sort<Column>
  onSort: (sort: Sort<Column>) => void
  /** Figures are asked for from the top, places and names from the start. */
  firstDown: boolean
  word: ReactNode
  children?: ReactNode
}

/** The word above a column of a `RowGrid`; pressing it sorts by the column, and again the other way round. */
export function SortHead<Column extends string | number>(props: SortHeadProps<Column>) {
  const { column, name = column, sort, onSort, firstDown, word, children } = props
  const sorted = sort.column === column
  return (
    // biome-ignore lint/a11y: a grid of divs, as its rows.
    <div
      role="columnheader"
      data-column={name}
      aria-sort={sorted ? (sort.down ? 'descending' : 'ascending') : 'none'}
    >
      <button type="button" onClick={() => onSort({ column, down: sorted ? !sort.down : firstDown })}>
        {word}
        {sorted && (
          <span className="sort-mark" aria-hidden="true">
            {sort.down ? '↓' : '↑'}
          </span>
        )}
      </button>
      {children}
    </div>
  )
}
