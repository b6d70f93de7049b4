import { type ProblemCode, WhorlError } from '../../core/contract/problem.ts'
import type { Trouble } from './driver.ts'

const codes = {
  locked: 'workspace-locked',
  'read-only': 'workspace-read-only',
  full: 'disk-full',
  'not-a-database': 'workspace-damaged',
  damaged: 'workspace-damaged',
} as const satisfies Record<Trouble, ProblemCode>

/** Trouble with a workspace file in the program's words. */
export const troubleWith = (file: string) => (trouble: Trouble, cause: unknown) =>
  new WhorlError(codes[trouble], { path: file }, { cause })
