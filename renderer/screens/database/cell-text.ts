import type { Cell } from '../../../core/contract/exchange.ts'

/** A cell for the eye: six digits of a number are enough. */
export const cellText = (cell: Cell): string =>
  cell === null || cell === ''
    ? 'nothing'
    : typeof cell === 'number'
      ? String(Number(cell.toPrecision(6))).replace('-', '−')
      : cell
