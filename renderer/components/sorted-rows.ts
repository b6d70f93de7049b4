/** Words as people sort them: `10 mm` after `9 mm`, capitals among the rest. */
export const byWords = new Intl.Collator('en', { numeric: true, sensitivity: 'base' }).compare

type Key = string | number | null

/** Rows in the order of a key. Those without one come last either way; equal ones stay as they stood. */
export function sortedRows<Row>(rows: readonly Row[], keyOf: (row: Row) => Key, down: boolean): Row[] {
  const sign = down ? -1 : 1
  return rows
    .map(row => ({ row, key: keyOf(row) }))
    .sort((a, b) => {
      if (a.key === null || b.key === null) return Number(a.key === null) - Number(b.key === null)
      return sign * compared(a.key, b.key)
    })
    .map(each => each.row)
}

const compared = (a: string | number, b: string | number) =>
  typeof a === 'number' && typeof b === 'number' ? a - b : byWords(String(a), String(b))
