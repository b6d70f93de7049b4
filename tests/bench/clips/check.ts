import { join } from 'node:path'
import type { Media } from '../../../electron/media/media.ts'
import type { CleanClip } from './clean.ts'
import type { SpoiledClip } from './spoiled.ts'

/** Findings on a clean clip that are not true of it, and true ones that are missing. */
export type CleanChecked = { name: string; alarms: string[]; missed: string[] }

export async function cleanChecked(
  media: Media,
  { name, scene, coder, expected }: CleanClip,
  folder: string,
) {
  const path = join(folder, name)
  await coder(scene, path)
  return judged(media, path, expected, scene.fps)
}

/** @param captureFps what a person says of it: a slow clip's rate is asked for, and that is no alarm */
export async function judged(
  media: Media,
  path: string,
  expected: string[],
  captureFps?: number,
): Promise<CleanChecked> {
  const { warnings } = await media.probe(path, { captureFps })
  const codes = warnings.map(warning => warning.code)
  return {
    name: path.split('/').at(-1)!,
    alarms: warnings
      .filter(({ code }) => !expected.includes(code))
      .map(({ code, message }) => `${code}: ${message}`),
    missed: expected.filter(code => !codes.includes(code)),
  }
}

export type SpoiledChecked = {
  name: string
  finds: string
  found: boolean
  message: string
  others: string[]
}

export async function spoiledChecked(
  media: Media,
  { name, scene, coder, finds, words = '', captureFps }: SpoiledClip,
  folder: string,
): Promise<SpoiledChecked> {
  const path = join(folder, name)
  await coder(scene, path)
  const { warnings } = await media.probe(path, { captureFps })
  const mine = warnings.find(warning => warning.code === finds)
  return {
    name,
    finds,
    found: mine?.message.includes(words) === true && mine.effect !== undefined && mine.todo !== undefined,
    message: mine?.message ?? '',
    others: warnings.map(warning => warning.code).filter(code => code !== finds),
  }
}
