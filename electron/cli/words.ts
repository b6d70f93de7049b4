import { parseArgs } from 'node:util'
import { WhorlError } from '../../core/contract/problem.ts'
import { type Command, type Given, isValued, type Options } from './command.ts'

/** Splits the words of a command line into options and plain words, or throws the `usage` problem. */
export function givenOf(command: Command, args: string[], name: string): Given<Options> {
  const { values, positionals } = parsedOrUsage(command, args, name)
  const { least, most } = command.words
  if (positionals.length < least || positionals.length > most)
    throw usage(wordCount(command, positionals), name)
  const options = Object.entries(command.options).map(([key, option]) => {
    if (!isValued(option)) return [key, values[key] === true]
    const given = values[key]
    const read = (Array.isArray(given) ? given : []).map(text => option.read(text, `--${key}`))
    return [key, 'many' in option ? read : read.at(-1)]
  })
  return { words: positionals, options: Object.fromEntries(options) }
}

type Parsed = { values: Record<string, string[] | boolean | undefined>; positionals: string[] }

function parsedOrUsage(command: Command, args: string[], name: string): Parsed {
  const options = Object.fromEntries(
    Object.entries(command.options).map(([key, option]) => [
      key,
      isValued(option) ? { type: 'string' as const, multiple: true } : { type: 'boolean' as const },
    ]),
  )
  try {
    return parseArgs({ args, options, allowPositionals: true, strict: true }) as Parsed
  } catch (error) {
    const said = error instanceof Error ? error.message.split(/\. |\n/)[0]! : String(error)
    throw usage(said.replace(/\.?$/, '.'), name)
  }
}

function wordCount({ takes, words }: Command, given: string[]): string {
  if (given.length > words.most && words.most === 0) return `“${given[0]}” is one word too many.`
  if (given.length > words.most) return `Expected ${takes}, got ${given.length} words.`
  return `Expected ${takes}, got ${given.length === 0 ? 'none' : given.length}.`
}

const usage = (what: string, name: string) =>
  new WhorlError('usage', {
    what,
    hint: `See whorl ${name} --help; a file name that starts with a dash is written ./-name.`,
  })
