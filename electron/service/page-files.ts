import { readdirSync, readFileSync } from 'node:fs'
import { extname, join, sep } from 'node:path'

export type PageFile = { type: string; bytes: Buffer<ArrayBuffer> }

const types: Record<string, string> = {
  '.html': 'text/html; charset=utf-8',
  '.js': 'text/javascript; charset=utf-8',
  '.css': 'text/css; charset=utf-8',
  '.json': 'application/json; charset=utf-8',
  '.svg': 'image/svg+xml',
  '.png': 'image/png',
  '.woff2': 'font/woff2',
  '.woff': 'font/woff',
}

/**
 * The page's built files by their address. They are read once: an address that is not in this table does
 * not exist, whatever dots and slashes it holds, and a new build does not mix with one that is running.
 */
export function pageFilesIn(folder: string): ReadonlyMap<string, PageFile> {
  const files = new Map<string, PageFile>()
  for (const entry of readdirSync(folder, { recursive: true, withFileTypes: true })) {
    const type = types[extname(entry.name)]
    if (!entry.isFile() || type === undefined) continue
    const path = join(entry.parentPath, entry.name)
    const address = path.slice(folder.length).split(sep).join('/').replace(/^\/*/, '/')
    files.set(address, { type, bytes: readFileSync(path) })
  }
  const index = files.get('/index.html')
  if (index) files.set('/', index)
  return files
}
