import { WhorlError } from '../../core/contract/problem.ts'

/** The row that was asked for, or the problem that the workspace has none by this id. */
export function found<T>(row: T | undefined, what: string, id: string): T {
  if (row === undefined) throw new WhorlError('not-in-workspace', { what, id })
  return row
}
