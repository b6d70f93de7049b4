import { hostname } from 'node:os'
import { basename } from 'node:path'
import { WhorlError } from '../../core/contract/problem.ts'
import { locate } from '../service/locate.ts'
import type { Taken } from './queue.ts'

/**
 * Where this machine has a clip: at the path that it was put with, else in one of the folders. Its contents decide,
 * whatever its name.
 *
 * @throws `queue-clip-not-here`
 */
export async function findClip(
  clip: Taken,
  folders: readonly string[],
  signal: AbortSignal,
): Promise<string> {
  const sought = { name: basename(clip.path), path: clip.path, probe: clip }
  const seen: string[] = []
  for (const at of [clip.path, ...folders]) {
    try {
      return (await locate(sought, at, signal)).path
    } catch (thrown) {
      if (signal.aborted) throw thrown
      seen.push(thrown instanceof WhorlError && thrown.code === 'clip-not-same' ? `${at} (another clip)` : at)
    }
  }
  throw new WhorlError('queue-clip-not-here', {
    name: sought.name,
    machine: hostname(),
    sha256: clip.sha256,
    places: seen.join(', '),
  })
}
