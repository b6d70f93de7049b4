import { realpathSync } from 'node:fs'
import { isAbsolute, relative, resolve, sep } from 'node:path'
import { WhorlError } from '../../core/contract/problem.ts'

const real = (path: string): string | null => {
  try {
    return realpathSync(path)
  } catch {
    return null
  }
}

const isInside = (folder: string, path: string): boolean => {
  const way = relative(folder, path)
  return way === '' || (way !== '..' && !way.startsWith(`..${sep}`) && !isAbsolute(way))
}

/**
 * The absolute path, if it lies in one of the folders; links are followed first, so that none leads out.
 * Without folders every path will do. A path that does not exist is judged as it is written.
 *
 * @throws `folder-not-named`
 */
export function pathInside(folders: readonly string[] | null, path: string): string {
  const whole = resolve(path)
  if (folders === null) return whole
  const target = real(whole) ?? whole
  if (folders.some(folder => isInside(real(folder) ?? resolve(folder), target))) return whole
  throw new WhorlError('folder-not-named', { path: whole })
}
