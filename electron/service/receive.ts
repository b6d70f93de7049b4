import { randomUUID } from 'node:crypto'
import { existsSync, mkdirSync, renameSync, rmSync } from 'node:fs'
import { open } from 'node:fs/promises'
import { basename, dirname, extname, join } from 'node:path'
import { pipeline } from 'node:stream/promises'
import { WhorlError } from '../../core/contract/problem.ts'
import type { Upload } from './app-host.ts'

/** Where dropped files are kept. */
export const clipsFolderOf = (workspaceFile: string): string => join(dirname(workspaceFile), 'clips')

/**
 * Writes a dropped file into the folder `clips` beside the workspace. It has its name only when it is
 * whole; one that breaks off leaves nothing behind. A file that lies there already is never written over.
 */
export async function receive(workspaceFile: string, { name, bytes, signal }: Upload): Promise<string> {
  const folder = clipsFolderOf(workspaceFile)
  mkdirSync(folder, { recursive: true })
  const arriving = join(folder, `.arriving-${randomUUID()}`)
  // Opened before anything flows: a stream that opens its file itself may make it after the tidying up.
  const file = await open(arriving, 'wx')
  try {
    await pipeline(bytes, file.createWriteStream(), { signal }).finally(() => file.close())
    const path = freePath(folder, safeName(name))
    renameSync(arriving, path)
    return path
  } catch (error) {
    rmSync(arriving, { force: true })
    if (signal.aborted) throw new WhorlError('cancelled', { what: 'Copying the clip' }, { cause: error })
    if ((error as NodeJS.ErrnoException).code === 'ENOSPC')
      throw new WhorlError('disk-full', { path: folder }, { cause: error })
    throw error
  }
}

/**
 * A name that is one plain file on every system: no folders, no control characters, none of the
 * characters and names that Windows keeps for itself, not too long, the ending kept.
 */
export function safeName(name: string): string {
  const last = basename(name.replaceAll('\\', '/'))
  const ending = extname(last)
    .replace(/[^.\w]/g, '')
    .slice(0, 12)
  const stem = last
    .slice(0, last.length - extname(last).length)
    // biome-ignore lint/suspicious/noControlCharactersInRegex: they are what must not get through
    .replace(/[\u0000-\u001f\u007f<>:"/\\|?*]/g, '_')
    .replace(/^[.\s-]+|[.\s]+$/g, '')
  const reserved = /^(con|prn|aux|nul|com\d|lpt\d)$/i.test(stem)
  return `${stem === '' || reserved ? `clip-${stem}` : shortened(stem)}${ending}`
}

/** At most 180 bytes, cut between characters: file systems count bytes, up to 255. */
function shortened(stem: string): string {
  const characters = [...stem]
  while (Buffer.byteLength(characters.join('')) > 180) characters.pop()
  return characters.join('')
}

function freePath(folder: string, name: string): string {
  const ending = extname(name)
  const stem = name.slice(0, name.length - ending.length)
  for (let n = 1; ; n++) {
    const path = join(folder, n === 1 ? name : `${stem} ${n}${ending}`)
    if (!existsSync(path)) return path
  }
}
