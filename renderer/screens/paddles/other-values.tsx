import { useEffect, useState } from 'react'
import type { PaddleTable } from '../../../core/contract/standings.ts'
import { choicesOf, figureColumns } from './table-view.ts'

/** Room for one column, and how much of the window the rest of the table takes. */
const [columnPx, restPx] = [108, 1120]

/** Which of the other values stand as columns: at first as many figures as there is room for. */
export function useShownValues(table: PaddleTable | null) {
  const [chosen, setChosen] = useState<number[] | null>(null)
  const [room, setRoom] = useState(() => roomIn(innerWidth))
  useEffect(() => {
    const measure = () => setRoom(roomIn(innerWidth))
    addEventListener('resize', measure)
    return () => removeEventListener('resize', measure)
  }, [])
  const usual = table ? usualColumns(table).slice(0, room) : []
  return [chosen ?? usual, setChosen] as const
}

const roomIn = (widthPx: number) => Math.max(1, Math.floor((widthPx - restPx) / columnPx))

/** Figures that differ from paddle to paddle come first; those of few values stand among the filters already. */
function usualColumns(table: PaddleTable): number[] {
  const kinds = new Set(choicesOf(table).map(choice => choice.column))
  const figures = figureColumns(table)
  return [...figures.filter(column => !kinds.has(column)), ...figures.filter(column => kinds.has(column))]
}

type OtherValuesProps = {
  table: PaddleTable
  shown: readonly number[]
  onShown: (shown: number[]) => void
}

/** Chooses which values that were measured elsewhere stand beside the spin. */
export function OtherValues({ table, shown, onShown }: OtherValuesProps) {
  if (table.columns.length === 0) return null
  const toggle = (column: number) =>
    onShown(shown.includes(column) ? shown.filter(each => each !== column) : [...shown, column])
  return (
    <details className="paddles-other">
      <summary>Other values</summary>
      <ul>
        {table.columns.map(({ name, unit }, column) => (
          <li key={name}>
            <label>
              <input type="checkbox" checked={shown.includes(column)} onChange={() => toggle(column)} />
              {name} {unit && <span className="unit">{unit}</span>}
            </label>
          </li>
        ))}
      </ul>
    </details>
  )
}
