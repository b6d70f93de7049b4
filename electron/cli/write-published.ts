import { statSync } from 'node:fs'
import { dirname, resolve } from 'node:path'
import { WhorlError } from '../../core/contract/problem.ts'
import type { PublishedFile } from '../../core/contract/publish.ts'
import { replaceFile } from '../export/replace-file.ts'
import type { World } from './world.ts'

/** Where a command writes, as it was said by --to. Throws the `usage` problem where it was not. */
export function placeSaid(to: string | undefined, example: string): string {
  if (to === undefined)
    throw new WhorlError('usage', {
      what: 'Where to write is missing.',
      hint: `Name the file by --to, for instance --to ${example}.`,
    })
  const path = resolve(to)
  if (!statSync(dirname(path), { throwIfNoEntry: false })?.isDirectory())
    throw new WhorlError('target-no-folder', { path })
  return path
}

/** Puts the file in its place in one step, and says so; what a person should know of it goes to standard error. */
export function writePublished(path: string, file: PublishedFile, world: World, asJson: boolean): void {
  const bytes = Buffer.from(file.base64, 'base64')
  try {
    replaceFile(path, bytes)
  } catch {
    throw new WhorlError('target-read-only', { path })
  }
  const { mediaType, notes } = file
  const said = { schema: 'whorl.published/1', path, mediaType, bytes: bytes.length, notes }
  if (!asJson) for (const note of notes) world.err(`${note}\n`)
  world.out(asJson ? `${JSON.stringify(said)}\n` : `Written to ${path} (${bytes.length} bytes).\n`)
}

/** The ending of a file's name, lower case; throws the `usage` problem when it is none of these. */
export function endingOf<T extends string>(path: string, endings: readonly T[]): T {
  const ending = endings.find(one => `.${path.toLowerCase()}`.endsWith(`.${one}`))
  if (ending) return ending
  throw new WhorlError('usage', {
    what: `It is not clear what to write to ${path}.`,
    hint: `Use a name that ends in ${endings.map(one => `.${one}`).join(' or ')}.`,
  })
}
