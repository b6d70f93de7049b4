import type { Children } from './children.ts'
import { type GuardedFile, inputArguments } from './guard.ts'
import type { Header } from './header.ts'
import type { Tools } from './programs.ts'

/**
 * A filter that lets every picture through and writes its time, in ticks, to standard error (at the level of
 * errors, 16, so that nothing else has to be let through). A picture is known by its time, not by counting.
 */
export const labelFilter = 'select=1+0*print(pts\\,16)'

/** The time that a line of standard error gives, or null when it is another line. */
export function labelOf(line: string): number | null {
  const found = /(?:^|\] )(-?\d+)\.0+$/.exec(line)
  return found ? Number(found[1]) : null
}

/** Words at the beginning of every decoding run. Times are kept as the container has them. */
export const quietly = ['-hide_banner', '-nostdin', '-nostats', '-loglevel', 'repeat+error', '-copyts']

/** The times of all pictures as they come out of the decoder, or of the first alone. */
export async function decodedPts(
  children: Children,
  tools: Tools,
  file: GuardedFile,
  header: Header,
  { signal, firstOnly }: { signal?: AbortSignal; firstOnly: boolean },
): Promise<number[]> {
  const pts: number[] = []
  const args = [...quietly, '-noautorotate', ...inputArguments(file), '-map', `0:${header.stream}`]
  args.push(
    '-vf',
    labelFilter,
    ...tools.everyFrame,
    ...(firstOnly ? ['-frames:v', '1'] : []),
    '-f',
    'null',
    '-',
  )
  const onLine = (line: string) => {
    const label = labelOf(line)
    if (label !== null) pts.push(label)
    return label !== null
  }
  await children.start(tools.ffmpeg.path, args, { signal, stdio: ['ignore', 'ignore', 'pipe'], onLine }).ended
  return pts
}
