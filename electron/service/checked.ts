import type { z } from 'zod'
import type { CallName } from '../../core/contract/calls.ts'
import { WhorlError } from '../../core/contract/problem.ts'

/**
 * What came as unknown, once it fits the schema of a call.
 *
 * @param whole what did not fit where no part of it can be named
 * @throws `bad-payload` with the first place that does not fit
 */
export function checked<T>(schema: z.ZodType<T>, value: unknown, call: CallName, whole: string): T {
  const result = schema.safeParse(value)
  if (result.success) return result.data
  const issue = result.error.issues[0]
  const where = issue?.path.join('.') || whole
  throw new WhorlError('bad-payload', { call, where, what: issue?.message ?? 'it does not fit' })
}
