import { spawn } from 'node:child_process'
import { once } from 'node:events'
import { Children } from '../../../electron/media/children.ts'
import { findTools } from '../../../electron/media/programs.ts'

/** The programs that Whorl itself uses, told nothing but what is needed. */
const tools = await findTools(new Children(), 'any')
export const { ffmpeg, ffprobe } = tools
export const quiet = ['-v', 'error', '-nostdin']

export const run = (program: string, words: readonly string[]) =>
  once(spawn(program, words, { stdio: 'ignore' }), 'close')

/** Decodes so many frames from a frame on to nothing. */
export function toNothing(path: string, times: readonly number[], fromFrame: number, frames: number) {
  const seek = fromFrame === 0 ? [] : ['-ss', ((times[fromFrame - 1]! + times[fromFrame]!) / 2).toFixed(6)]
  const words = [...quiet, ...seek, '-i', path, '-frames:v', String(frames)]
  return run(ffmpeg.path, [...words, ...tools.everyFrame, '-f', 'null', '-'])
}
