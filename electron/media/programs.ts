import { access, chmod, constants } from 'node:fs/promises'
import { delimiter, join } from 'node:path'
import { WhorlError } from '../../core/contract/problem.ts'
import { outsideArchive } from '../service/places.ts'
import type { Children } from './children.ts'
import { collect } from './collect.ts'
import type { MediaOptions, Program, Programs } from './media.ts'

/** The programs, and the option by which this ffmpeg hands out every frame once, whatever its time. */
export type Tools = Programs & { everyFrame: readonly string[] }

type Name = 'ffmpeg' | 'ffprobe'
type Place = { origin: string; find: (name: Name) => Promise<string | null> }

/** The package is absent where its download failed: named so that the build does not ask for it. */
async function downloadedFfmpeg(): Promise<string | null> {
  const name = 'ffmpeg-static'
  const { default: path }: { default: string | null } = await import(/* @vite-ignore */ name)
  return path
}

const packagePlaces: Place[] = [
  {
    origin: 'ffmpeg-static',
    find: async name => (name === 'ffmpeg' ? await downloadedFfmpeg() : null),
  },
  {
    origin: 'the npm registry',
    find: async name =>
      name === 'ffmpeg'
        ? (await import('@ffmpeg-installer/ffmpeg')).default.path
        : (await import('@ffprobe-installer/ffprobe')).default.path,
  },
]
const systemPlace: Place = { origin: 'the system', find: findOnPath }

/**
 * Finds ffmpeg and ffprobe: ffmpeg-static, then the packages from the npm registry, then the system's.
 * A program counts as found when it runs and says its version.
 * Throws ffmpeg-missing, with all that was tried.
 */
export async function findTools(children: Children, wanted: MediaOptions['programs']): Promise<Tools> {
  const [ffmpeg, ffprobe] = await Promise.all([
    findProgram(children, 'ffmpeg', placesFor(wanted)),
    findProgram(children, 'ffprobe', placesFor(wanted)),
  ])
  return { ffmpeg, ffprobe, everyFrame: await everyFrameOption(children, ffmpeg.path) }
}

function placesFor(wanted: MediaOptions['programs']): Place[] {
  const said = wanted ?? process.env.WHORL_FFMPEG
  if (said === 'packages') return packagePlaces
  if (said === 'system') return [systemPlace]
  return [...packagePlaces, systemPlace]
}

async function findProgram(children: Children, name: Name, places: Place[]): Promise<Program> {
  const tried: string[] = []
  for (const { origin, find } of places) {
    tried.push(origin)
    // A package that is absent, or that has nothing for this platform, throws on import.
    const path = await find(name).catch(() => null)
    if (!path || !(await makeRunnable(outsideArchive(path)))) continue
    const { ok, text } = await collect(children, outsideArchive(path), ['-version'])
    const version = /^ff\w+ version (\S+)/.exec(text)?.[1]
    if (ok && version) return { path: outsideArchive(path), origin, version }
  }
  children.check(undefined, `Looking for ${name}`)
  throw new WhorlError('ffmpeg-missing', { program: name, tried: tried.join(', ') })
}

/** The registry ships ffprobe with mode 0744: nobody but the owner may run it until the bit is set. */
export async function makeRunnable(path: string): Promise<boolean> {
  if (await isRunnable(path)) return true
  await chmod(path, 0o755).catch(() => {})
  return isRunnable(path)
}

const isRunnable = (path: string) =>
  access(path, constants.X_OK).then(
    () => true,
    () => false,
  )

async function findOnPath(name: Name): Promise<string | null> {
  const file = process.platform === 'win32' ? `${name}.exe` : name
  for (const folder of (process.env.PATH ?? '').split(delimiter)) {
    if (folder === '') continue
    const path = join(folder, file)
    if (await isRunnable(path)) return path
  }
  return null
}

/** `-vsync` of old is `-fps_mode` since ffmpeg 5.1 and will go; a build that lacks the new word fails on it. */
async function everyFrameOption(children: Children, ffmpeg: string): Promise<readonly string[]> {
  const modern = ['-fps_mode', 'passthrough']
  const { ok } = await collect(children, ffmpeg, ['-loglevel', 'error', ...modern, '-version'])
  return ok ? modern : ['-vsync', 'passthrough']
}
