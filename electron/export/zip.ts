import { type Unzipped, unzipSync, zipSync } from 'fflate'

export type Files = Record<string, Uint8Array>

export const mostBytes = 512 * 1024 * 1024
const mostFiles = 20_000

/**
 * The files of a zip by their paths. Nothing is written to a disk, and what would unpack to more than half
 * a gigabyte is refused before it is unpacked.
 *
 * @throws Error that says what is wrong
 */
export function unzip(bytes: Uint8Array): Files {
  let total = 0
  const seen = new Set<string>()
  let files: Unzipped
  try {
    files = unzipSync(bytes, {
      filter: ({ name, originalSize, compression }) => {
        if (!isPlainPath(name)) throw new Fault(`it holds a path that leads elsewhere (${name.slice(0, 80)})`)
        if (seen.has(name)) throw new Fault(`it holds ${name} twice`)
        if (compression !== 0 && compression !== 8) throw new Fault(`${name} is packed in an unknown way`)
        seen.add(name)
        total += originalSize
        if (total > mostBytes) throw new Fault(`it unpacks to more than ${mostBytes / 1024 ** 2} MB`)
        if (seen.size > mostFiles) throw new Fault(`it holds more than ${mostFiles} files`)
        return true
      },
    })
  } catch (thrown) {
    throw thrown instanceof Fault ? thrown : new Error('it is not a whole zip file')
  }
  return files
}

class Fault extends Error {}

/** Relative, without a way up and without a drive. */
const isPlainPath = (path: string) =>
  path !== '' && !/^[\\/]|^[a-z]:|\\|\0/i.test(path) && !path.split('/').includes('..')

/** The same files give the same bytes, whenever they are packed. */
export const zipped = (files: Files): Uint8Array => zipSync(files, { level: 6, mtime: '1980-01-01T00:00:00' })
