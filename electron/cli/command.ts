import type { World } from './world.ts'

/** A switch that is there or not, as `--json`. */
export type Switch = { says: string }
/** An option with a value. `read` turns its text into the value, or throws the `usage` problem. */
export type Valued<T> = { takes: string; says: string; read: (text: string, option: string) => T }
/** An option that may be given again; its value is a list, empty when not given. */
export type Repeated<T> = Valued<T> & { many: true }
export type Option = Switch | Valued<unknown> | Repeated<unknown>
export type Options = Record<string, Option>

type ValueOf<O extends Option> =
  O extends Repeated<infer T> ? T[] : O extends Valued<infer T> ? T | undefined : boolean
/** What a person gave: plain words in order, and each option's value (undefined or false when not given). */
export type Given<O extends Options> = { words: string[]; options: { [K in keyof O]: ValueOf<O[K]> } }

/**
 * One command of the command line. `takes` names its plain words as help shows them, `words` says how
 * many. `run` answers the exit code; problems are thrown and shown by `run.ts`.
 */
export type Command<O extends Options = Options> = {
  says: string
  takes: string
  words: { least: number; most: number }
  options: O
  example: string
  run(given: Given<O>, world: World): Promise<number>
}

/** Ties the type of `given` to the options; the table of commands holds them all as one type. */
export const command = <const O extends Options>(c: Command<O>): Command => c as unknown as Command

export const isValued = (option: Option): option is Valued<unknown> => 'read' in option

export const json: Switch = { says: 'print JSON, one document a line' }
