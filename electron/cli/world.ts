import { text } from 'node:stream/consumers'

/** What a command may touch of the process it runs in; tests hand in their own. */
export type World = {
  out(text: string): void
  err(text: string): void
  readStdin(): Promise<string>
  /** True where a person watches: progress bars and opening the app make sense. */
  outIsTerminal: boolean
  errIsTerminal: boolean
  env: Record<string, string | undefined>
  /** Aborted by Ctrl-C. */
  signal: AbortSignal
}

export function worldOf(process: NodeJS.Process, signal: AbortSignal): World {
  return {
    out: words => void process.stdout.write(words),
    err: words => void process.stderr.write(words),
    readStdin: () => text(process.stdin),
    outIsTerminal: process.stdout.isTTY === true,
    errIsTerminal: process.stderr.isTTY === true,
    env: process.env,
    signal,
  }
}
