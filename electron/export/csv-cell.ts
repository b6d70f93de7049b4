/**
 * How a spreadsheet tells a formula from text (OWASP, CSV Injection; the list is from memory), behind any
 * apostrophes that were put before it already.
 */
const formula = /^'*[=+\-@\t\r\n＝＋－＠]/
const guarded = /^'+[=+\-@\t\r\n＝＋－＠]/

/** Text as a cell that no spreadsheet runs: an apostrophe before what would be a formula. Numbers stay numbers. */
export const guardCell = (text: string): string => (formula.test(text) ? `'${text}` : text)

/** The text behind a guarded cell. */
export const unguardCell = (cell: string): string => (guarded.test(cell) ? cell.slice(1) : cell)
