import type { DayTurn } from '../../../../core/contract/test-day.ts'

/** A turn's paddle as it is read out; the stock set-up goes without saying. */
export const nameOf = ({ paddle, setUp }: Pick<DayTurn, 'paddle' | 'setUp'>): string =>
  setUp === 'stock' ? paddle : `${paddle} / ${setUp}`
