import { WhorlError } from '../../core/contract/problem.ts'
import { isTaken } from './driver.ts'

/** Writes what has a name of its own, or says that the name is taken. */
export function unlessTaken(what: string, name: string, write: () => void): void {
  try {
    write()
  } catch (thrown) {
    throw isTaken(thrown) ? new WhorlError('name-taken', { what, name }, { cause: thrown }) : thrown
  }
}
