import { createHash } from 'node:crypto'
import { createReadStream, readdirSync, statSync } from 'node:fs'
import { basename, join } from 'node:path'
import { pipeline } from 'node:stream/promises'
import { WhorlError } from '../../core/contract/problem.ts'
import type { ClipRecord } from '../../core/contract/workspace.ts'

export type LocatedFile = { path: string; sha256: string }
/** What is known of the clip that is looked for; of one that was never probed neither size nor hash. */
export type Sought = Pick<ClipRecord, 'name' | 'path'> & { probe: { sha256: string; bytes: number } | null }

async function sha256Of(path: string, signal: AbortSignal): Promise<string> {
  const hash = createHash('sha256')
  await pipeline(createReadStream(path), hash, { signal })
  return hash.digest('hex')
}

/**
 * Looks for a clip's file where a person pointed: at the file itself, or in a folder among the files of
 * the same size. What decides is the hash, not the name.
 *
 * @throws `file-not-found` when nothing there can be it, `clip-not-same` when the file is another.
 */
export async function locate(record: Sought, at: string, signal: AbortSignal): Promise<LocatedFile> {
  const stat = statSync(at, { throwIfNoEntry: false })
  if (stat === undefined) throw new WhorlError('file-not-found', { path: at })
  const known = record.probe
  if (!stat.isDirectory()) {
    const sha256 = await sha256Of(at, signal)
    if (known && known.sha256 !== sha256)
      throw new WhorlError('clip-not-same', { path: at, name: record.name })
    return { path: at, sha256 }
  }
  for (const path of candidates(record, at)) {
    const sha256 = await sha256Of(path, signal)
    if (known === null || known.sha256 === sha256) return { path, sha256 }
  }
  throw new WhorlError('file-not-found', { path: join(at, record.name) })
}

/** Files of the clip's size (of its name, where the size was never known), those of its name first. */
function candidates({ name, path, probe }: Sought, folder: string): string[] {
  const names = new Set([name, basename(path)])
  return readdirSync(folder)
    .map(entry => join(folder, entry))
    .filter(file => {
      const stat = statSync(file, { throwIfNoEntry: false })
      return stat?.isFile() && (probe ? stat.size === probe.bytes : names.has(basename(file)))
    })
    .sort((a, b) => Number(names.has(basename(b))) - Number(names.has(basename(a))))
}
