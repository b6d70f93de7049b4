import type { Children, Ending } from './children.ts'
import { maxSilentSeconds, watchSilence } from './silence.ts'

/** Standard output is cut off beyond this: a list of frame times of more than an hour at 240 fps. */
const maxBytes = 64 * 1024 * 1024

export type CollectOptions = { signal?: AbortSignal; onBytes?: (bytes: number) => void }
export type Collected = Ending & { text: string }

/** Runs a program to its end and returns what it wrote to standard output, within limits of size and silence. */
export async function collect(
  children: Children,
  program: string,
  args: readonly string[],
  { signal, onBytes }: CollectOptions = {},
): Promise<Collected> {
  const running = children.start(program, args, { signal })
  const pieces: Buffer[] = []
  let bytes = 0
  let limit = ''
  const stopFor = (why: string) => {
    limit ||= why
    running.stop()
  }
  const silence = watchSilence(() => stopFor(`it gave no answer for ${maxSilentSeconds} s`))
  running.child.stdout?.on('data', (piece: Buffer) => {
    silence.heard()
    bytes += piece.length
    if (bytes > maxBytes) return stopFor(`its answer is longer than ${maxBytes >> 20} MB`)
    pieces.push(piece)
    onBytes?.(bytes)
  })
  const { ok, broke, complaint } = await running.ended
  silence.end()
  return {
    ok: ok && limit === '',
    broke: broke || limit !== '',
    complaint: limit || complaint,
    text: Buffer.concat(pieces).toString('utf8'),
  }
}
