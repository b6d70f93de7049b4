import { createContext, useContext } from 'react'
import type { Host } from '../../core/contract/calls.ts'
import { type Problem, problemOf, problemSchema } from '../../core/contract/problem.ts'

/** A call that the host refused or could not finish; `problem` holds the words to show. */
export class HostProblem extends Error {
  override readonly name = 'HostProblem'
  constructor(readonly problem: Problem) {
    super(problem.message)
  }
}

/** Any thrown value as words to show: the host's own as they came, anything else as `internal`. */
export function problemShown(thrown: unknown): Problem {
  if (thrown instanceof HostProblem) return thrown.problem
  const came = problemSchema.safeParse(thrown)
  return came.success ? came.data : problemOf(thrown)
}

const HostContext = createContext<Host | null>(null)
export const HostProvider = HostContext.Provider

/** The host that the root handed in; screens never know which shell it is. */
export function useHost(): Host {
  const host = useContext(HostContext)
  if (!host) throw new Error('A screen was drawn outside HostProvider.')
  return host
}
