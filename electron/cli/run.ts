import { WhorlError } from '../../core/contract/problem.ts'
import { commands } from './commands.ts'
import { exitCodes, sayProblem } from './failure.ts'
import { helpOf, helpOfAll } from './help.ts'
import { givenOf } from './words.ts'
import type { World } from './world.ts'

const asksForHelp = (words: string[]): boolean =>
  untilDashes(words).some(word => word === '--help' || word === '-h')
const asksForJson = (words: string[]): boolean => untilDashes(words).includes('--json')
const untilDashes = (words: string[]): string[] => words.slice(0, [...words, '--'].indexOf('--'))

/** Runs one command line (without the program's name) and answers the exit code. Never throws. */
export async function run(words: string[], world: World): Promise<number> {
  const [name, ...rest] = words
  try {
    if (name === undefined || name === '--help' || name === '-h' || name === 'help') {
      world.out(helpOfAll())
      return exitCodes.fine
    }
    const entry = Object.hasOwn(commands, name) ? commands[name] : undefined
    if (entry === undefined) {
      const known = Object.keys(commands).join(', ')
      throw new WhorlError('usage', { what: `“${name}” is not a command.`, hint: `Commands: ${known}.` })
    }
    const { default: command } = await entry.load()
    if (asksForHelp(rest)) {
      world.out(helpOf(name, command))
      return exitCodes.fine
    }
    return await command.run(givenOf(command, rest, name), world)
  } catch (error) {
    return sayProblem(error, world, asksForJson(words))
  }
}
