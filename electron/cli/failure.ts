import { type Problem, problemOf, WhorlError } from '../../core/contract/problem.ts'
import type { World } from './world.ts'

/** Control characters of a file name would break the line (or drive the terminal): shown as escapes. */
const oneLine = (text: string): string =>
  // biome-ignore lint/suspicious/noControlCharactersInRegex: they are what must not get through
  text.replace(/[\u0000-\u001f\u007f-\u009f\u2028\u2029]/g, c => JSON.stringify(c).slice(1, -1))

export const exitCodes = { fine: 0, unusable: 1, notUnderstood: 2, interrupted: 130 } as const

const exitCodeOf = (problem: Problem): number =>
  problem.code === 'usage'
    ? exitCodes.notUnderstood
    : problem.code === 'cancelled'
      ? exitCodes.interrupted
      : exitCodes.unusable

/**
 * The one way in which a problem leaves the command line: a line on standard error, with `--json` the
 * same as a document on standard output. Answers the exit code.
 */
export function sayProblem(thrown: unknown, world: World, asJson: boolean): number {
  const problem = problemOf(thrown)
  if (asJson) world.out(`${JSON.stringify(problem)}\n`)
  world.err(`whorl: ${oneLine(`${problem.message} ${problem.hint}`)}\n`)
  return exitCodeOf(problem)
}

/**
 * Does one thing for each input, in order. One that cannot be used is told and does not stop the others.
 * Answers the exit code of the whole.
 */
export async function forEachInput(
  inputs: string[],
  world: World,
  asJson: boolean,
  use: (input: string) => Promise<void>,
): Promise<number> {
  let code: number = exitCodes.fine
  for (const input of inputs) {
    if (world.signal.aborted) throw new WhorlError('cancelled', { what: 'The command' })
    try {
      await use(input)
    } catch (error) {
      if (world.signal.aborted) throw error
      code = Math.max(code, sayProblem(error, world, asJson))
    }
  }
  return code
}
