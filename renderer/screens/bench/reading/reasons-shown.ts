import type { Reading } from '../../../../core/contract/reading.ts'

/** An ambiguous reading begins with why it is; what else is to be said of it waits until the rates were shown. */
const first = ({ flag, reasons }: Reading) => (flag === 'ambiguous' ? 1 : reasons.length)

export const headlineReasons = (reading: Reading): string[] => reading.reasons.slice(0, first(reading))
export const laterReasons = (reading: Reading): string[] => reading.reasons.slice(first(reading))
