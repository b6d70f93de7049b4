import './row-grid.css'
import { useVirtualizer } from '@tanstack/react-virtual'
import { type CSSProperties, type ReactNode, useEffect, useRef } from 'react'
import { useLetterScale } from './use-letter-scale.ts'

type RowGridProps<Row> = {
  className: string
  label: string
  /** Values for its style sheet. */
  style?: Record<`--${string}`, string | undefined>
  rows: readonly Row[]
  /** Names a row, in the whole page. */
  idOf: (row: Row) => string
  /** The row that the keys move, which is brought into sight. */
  at: string | null
  onAt: (id: string) => void
  /** With letters of the usual size; both grow with them. */
  rowHeightPx: number
  headHeightPx: number
  head: ReactNode
  cellsOf: (row: Row) => ReactNode
}

/**
 * A table whose head stays above its rows. Only the rows in sight exist in the page, however many there
 * are. `className` gives head and rows their columns (`grid-template-columns`, in rem) and the
 * width below which they scroll sideways (`--least-width`); its keys are the screen's.
 */
export function RowGrid<Row>(props: RowGridProps<Row>) {
  const { className, label, style, rows, idOf, at, onAt, head, cellsOf } = props
  const scroller = useRef<HTMLDivElement>(null)
  const headRow = useRef<HTMLDivElement>(null)
  const scale = useLetterScale(headRow)
  const [rowHeightPx, headHeightPx] = [scale * props.rowHeightPx, scale * props.headHeightPx]
  const virtual = useVirtualizer({
    count: rows.length,
    getScrollElement: () => scroller.current,
    estimateSize: () => rowHeightPx,
    overscan: 10,
    scrollMargin: headHeightPx,
    scrollPaddingStart: headHeightPx,
  })
  // biome-ignore lint/correctness/useExhaustiveDependencies: the list asks for a row's height only when told to.
  useEffect(() => virtual.measure(), [rowHeightPx, virtual])
  const index = rows.findIndex(row => idOf(row) === at)
  useEffect(() => {
    if (index >= 0) virtual.scrollToIndex(index, { align: 'auto' })
  }, [index, virtual])
  const drawn = virtual.getVirtualItems()

  return (
    // biome-ignore lint/a11y/useSemanticElements: a table element cannot hold rows that are placed by hand.
    <div
      className={`row-grid ${className}`}
      role="grid"
      aria-label={label}
      aria-rowcount={rows.length + 1}
      aria-activedescendant={drawn.some(item => item.index === index) ? `row-${at}` : undefined}
      tabIndex={0}
      ref={scroller}
      style={{ ...style, '--head-height': `${props.headHeightPx / 16}rem` } as CSSProperties}
    >
      {/* biome-ignore lint/a11y: as above. */}
      <div
        ref={headRow}
        className="row-grid-head"
        role="row"
        aria-rowindex={1}
        style={{ height: 'var(--head-height)' }}
      >
        {head}
      </div>
      {/* biome-ignore lint/a11y/useSemanticElements: as above. */}
      <div
        className="row-grid-rows"
        role="rowgroup"
        style={{ height: virtual.getTotalSize(), position: 'relative' }}
      >
        {drawn.map(item => {
          const row = rows[item.index]!
          const id = idOf(row)
          return (
            // biome-ignore lint/a11y: as above.
            <div
              key={id}
              id={`row-${id}`}
              className="row-grid-row"
              role="row"
              aria-rowindex={item.index + 2}
              aria-selected={item.index === index}
              style={{ height: rowHeightPx, transform: `translateY(${item.start - headHeightPx}px)` }}
              onClick={() => onAt(id)}
            >
              {cellsOf(row)}
            </div>
          )
        })}
      </div>
    </div>
  )
}
