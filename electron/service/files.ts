import { readdirSync, type Stats, statSync } from 'node:fs'
import { homedir } from 'node:os'
import { basename, dirname, extname, join } from 'node:path'
import type { Folder, FolderEntry, Service } from '../../core/contract/calls.ts'
import { WhorlError } from '../../core/contract/problem.ts'
import { pathInside } from './folders.ts'
import type { Parts } from './parts.ts'

type Calls = 'files.list' | 'files.pick'

/** Endings of files that a camera or an editor writes; what is inside is for the probe to say. */
export const clipEndings = '.mp4 .mov .m4v .mkv .avi .webm .mts .m2ts .3gp .mpg .mpeg .wmv .mxf'.split(' ')

export const fileCalls = ({ folders, pick }: Parts): Pick<Service, Calls> => ({
  'files.list': async ({ folder }) => {
    const roots = folders ?? [homedir()]
    if (folder === null && roots.length > 1) return { path: '', parent: null, entries: roots.map(rootEntry) }
    return listing(pathInside(folders, folder ?? roots[0]!), folders)
  },
  'files.pick': async ({ purpose }) => (pick ? await pick(purpose) : null),
})

const rootEntry = (path: string): FolderEntry => ({
  name: basename(path) || path,
  path,
  kind: 'folder',
  bytes: 0,
})

/** Folders first, then clips, each by name as a person reads it; hidden ones and all else are left out. */
function listing(path: string, folders: string[] | null): Folder {
  const entries = entriesOf(path)
    .filter(name => !name.startsWith('.'))
    .flatMap(name => entryOf(path, name))
    .sort((a, b) => byKind(a, b) || a.name.localeCompare(b.name, 'en', { numeric: true }))
  return { path, parent: parentOf(path, folders), entries }
}

const byKind = (a: FolderEntry, b: FolderEntry) => Number(a.kind === 'clip') - Number(b.kind === 'clip')

function entriesOf(path: string): string[] {
  try {
    return readdirSync(path)
  } catch (error) {
    const { code, message } = error as NodeJS.ErrnoException
    if (code === 'ENOENT') throw new WhorlError('file-not-found', { path })
    throw new WhorlError('file-unreadable', { path, what: code === 'ENOTDIR' ? 'it is no folder' : message })
  }
}

function entryOf(folder: string, name: string): FolderEntry[] {
  const path = join(folder, name)
  const stat = statOf(path)
  if (stat?.isDirectory()) return [{ name, path, kind: 'folder', bytes: 0 }]
  if (!stat?.isFile() || !clipEndings.includes(extname(name).toLowerCase())) return []
  return [{ name, path, kind: 'clip', bytes: stat.size }]
}

/** Null for what cannot be looked at: it is left out, the rest of the folder stays. */
function statOf(path: string): Stats | null {
  try {
    return statSync(path)
  } catch {
    return null
  }
}

/** The folder above, as far as it may be seen. */
function parentOf(path: string, folders: string[] | null): string | null {
  const parent = dirname(path)
  if (parent === path) return null
  try {
    return pathInside(folders, parent)
  } catch {
    return null
  }
}
