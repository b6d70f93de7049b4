import { type Command, isValued } from './command.ts'
import { commands } from './commands.ts'

const columns = (rows: [string, string][]): string => {
  const width = Math.max(...rows.map(([left]) => left.length))
  return rows.map(([left, right]) => `  ${left.padEnd(width)}   ${right}\n`).join('')
}

/** What `whorl --help` shows: every command with what it does. */
export function helpOfAll(): string {
  const rows = Object.entries(commands).map(([name, { says }]): [string, string] => [name, says])
  return `Whorl measures ball spin from high-speed clips.\n\nwhorl COMMAND …\n\n${columns(rows)}\nwhorl COMMAND --help shows its options and an example.\n`
}

/** What `whorl NAME --help` shows: usage, options, one example. */
export function helpOf(name: string, command: Command): string {
  const rows = Object.entries(command.options).map(([key, option]): [string, string] => [
    isValued(option) ? `--${key} ${option.takes}` : `--${key}`,
    option.says,
  ])
  rows.push(['--help', 'show this'])
  const usage = ['whorl', name, command.takes, '[options]'].filter(word => word !== '').join(' ')
  return `${usage}\n\n${command.says}\n\n${columns(rows)}\nExample:\n  ${command.example}\n`
}
