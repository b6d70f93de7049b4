import { createHash } from 'node:crypto'
import { existsSync } from 'node:fs'
import { mkdir, readFile, rename, writeFile } from 'node:fs/promises'
import { join } from 'node:path'
import { encode } from './encode.ts'
import { renderFrames } from './frames.ts'
import type { Scene } from './scene.ts'
import { truthOf } from './truth.ts'
import type { Truth } from './truth-form.ts'

/** Changes whenever the same scene would give other pictures or another truth, so that no stale clip is used. */
const PICTURES = 1

export type Rendered = { clipPath: string; truthPath: string; truth: Truth }

/** Renders a scene into `folder` as NAME.mp4 (or .mov) and NAME.truth.json; nothing is left half written. */
export async function renderScene(scene: Scene, folder: string): Promise<Rendered> {
  const truth = truthOf(scene)
  const clipPath = join(folder, truth.clip)
  const truthPath = join(folder, `${scene.name}.truth.json`)
  const unfinished = join(folder, `unfinished-${process.pid}-${truth.clip}`)
  await mkdir(folder, { recursive: true })
  await encode(scene, renderFrames(scene), unfinished)
  await writeFile(truthPath, `${JSON.stringify(truth, null, 1)}\n`)
  await rename(unfinished, clipPath)
  return { clipPath, truthPath, truth }
}

/** As `renderScene`, with the scene's hash in the name; what is there already is not rendered again. */
export async function renderOnce(scene: Scene, folder: string): Promise<Rendered> {
  const hash = createHash('sha256')
    .update(JSON.stringify([PICTURES, scene]))
    .digest('hex')
    .slice(0, 10)
  const named: Scene = { ...scene, name: `${scene.name}-${hash}` }
  const clipPath = join(folder, `${named.name}.${scene.encoding.container}`)
  const truthPath = join(folder, `${named.name}.truth.json`)
  if (!existsSync(clipPath)) return renderScene(named, folder)
  return { clipPath, truthPath, truth: JSON.parse(await readFile(truthPath, 'utf8')) }
}
