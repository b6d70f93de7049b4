import { existsSync } from 'node:fs'
import { delimiter, join } from 'node:path'
import { Children } from '../../../electron/media/children.ts'
import type { MediaOptions } from '../../../electron/media/media.ts'
import { findTools } from '../../../electron/media/programs.ts'

const onPath = (program: string) =>
  (process.env.PATH ?? '').split(delimiter).some(folder => folder !== '' && existsSync(join(folder, program)))

/** The builds to test with: those from the registry always, the system's where there is one. */
export const builds: NonNullable<MediaOptions['programs']>[] =
  onPath('ffmpeg') && onPath('ffprobe') ? ['packages', 'system'] : ['packages']

export const toolsOf = (programs: MediaOptions['programs']) => findTools(new Children(), programs)

/** The programs that make the clips and decode them whole; the system's are checked against what these say. */
export const makers = await toolsOf('packages')
