import { type FileHandle, open, stat } from 'node:fs/promises'
import { resolve } from 'node:path'
import { WhorlError } from '../../core/contract/problem.ts'
import { headBytes, looksLike } from './containers.ts'

/** A file that may be shown to ffmpeg. `key` changes when the file does. */
export type GuardedFile = { path: string; bytes: number; demuxer: string; key: string }

/** An absolute path and a mark of the file's present state; throws file-not-found or file-unreadable. */
export async function fileState(path: string): Promise<{ path: string; bytes: number; key: string }> {
  const absolute = resolve(path)
  const found = await stat(absolute).catch(error => Promise.reject(whyUnreadable(path, error)))
  if (found.isDirectory()) throw new WhorlError('file-is-folder', { path })
  // A pipe or a device could keep a reader waiting for ever.
  if (!found.isFile()) throw new WhorlError('file-unreadable', { path, what: 'it is not a regular file' })
  return { path: absolute, bytes: found.size, key: `${absolute}\n${found.size}\n${found.mtimeMs}` }
}

/**
 * Looks at a file before any program opens it. Throws file-not-found, file-is-folder, file-unreadable,
 * clip-empty, clip-points-elsewhere (a list of other files or addresses) or clip-not-video.
 */
export async function guard(path: string): Promise<GuardedFile> {
  const state = await fileState(path)
  if (state.bytes === 0) throw new WhorlError('clip-empty', { path })
  const looks = looksLike(await readHead(path, state.path))
  if (looks.kind === 'list') throw new WhorlError('clip-points-elsewhere', { path })
  if (looks.kind === 'other') throw new WhorlError('clip-not-video', { path, what: looks.what })
  return { ...state, demuxer: looks.demuxer }
}

/** The largest picture that is decoded: 8192 × 8192, twice what an 8K camera gives. */
const mostPixels = 8192 * 8192

/**
 * How ffmpeg is told to open a file: by a demuxer that we chose, nothing but local files, and within limits: of
 * what is read to guess the streams (bytes, microseconds), of a picture's size, and of one piece of memory.
 */
export const openArguments = (file: GuardedFile): string[] => [
  ...['-protocol_whitelist', 'file,pipe'],
  ...['-probesize', '5000000', '-analyzeduration', '5000000'],
  ...['-max_pixels', String(mostPixels), '-max_alloc', String(1 << 30)],
  ...['-f', file.demuxer],
]

/** A file's name for ffmpeg, which cannot be taken for an option, a pattern or another protocol. */
export const inputName = (file: GuardedFile): string => `file:${file.path}`

export const inputArguments = (file: GuardedFile): string[] => [...openArguments(file), '-i', inputName(file)]

async function readHead(said: string, path: string): Promise<Buffer> {
  let handle: FileHandle | undefined
  try {
    handle = await open(path, 'r')
    const { buffer, bytesRead } = await handle.read(Buffer.alloc(headBytes), 0, headBytes, 0)
    return buffer.subarray(0, bytesRead)
  } catch (error) {
    throw whyUnreadable(said, error)
  } finally {
    await handle?.close()
  }
}

/** The system's reason for not reading a file, in our words. */
export function whyUnreadable(path: string, error: unknown): WhorlError {
  const code = (error as NodeJS.ErrnoException).code
  if (code === 'ENOENT' || code === 'ENOTDIR' || code === 'ERR_INVALID_ARG_VALUE' || code === 'ENAMETOOLONG')
    return new WhorlError('file-not-found', { path }, { cause: error })
  const what = code === 'EACCES' || code === 'EPERM' ? 'permission denied' : (error as Error).message
  return new WhorlError('file-unreadable', { path, what }, { cause: error })
}
