import { run } from '../../../electron/cli/run.ts'
import type { World } from '../../../electron/cli/world.ts'

export type Said = { code: number; out: string; err: string }

/** Runs a command line in this process and answers with all that it said. */
export async function said(words: string[], world: Partial<World> & { stdin?: string } = {}): Promise<Said> {
  let [out, err] = ['', '']
  const code = await run(words, {
    out: text => {
      out += text
    },
    err: text => {
      err += text
    },
    readStdin: async () => world.stdin ?? '',
    outIsTerminal: false,
    errIsTerminal: false,
    env: {},
    signal: new AbortController().signal,
    ...world,
  })
  return { code, out, err }
}
