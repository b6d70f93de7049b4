import { existsSync } from 'node:fs'
import { dirname, join } from 'node:path'
import { fileURLToPath } from 'node:url'

/** The folder of package.json above this code, which lies deeper once it is built. */
function programFolder(): string {
  let folder = dirname(fileURLToPath(import.meta.url))
  while (!existsSync(join(folder, 'package.json')) && dirname(folder) !== folder) folder = dirname(folder)
  return folder
}

/** What other programs and compiled libraries open by its path is shipped in the folder beside the app's archive. */
export const outsideArchive = (path: string): string =>
  path.replace(/\bapp\.asar(?=[\\/])/, 'app.asar.unpacked')

const program = programFolder()

/** Where the program's own parts lie. */
export const places = {
  program,
  page: join(program, 'dist', 'renderer'),
  preload: join(program, 'dist', 'host', 'preload.cjs'),
  samples: outsideArchive(join(program, 'sample-clips')),
} as const
