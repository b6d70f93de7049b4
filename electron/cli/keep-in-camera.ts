import { resolve } from 'node:path'
import type { CameraProfile, CameraProfileDetails } from '../../core/contract/cameras.ts'
import { WhorlError } from '../../core/contract/problem.ts'
import { ownWorkspace } from '../service/data-folder.ts'
import { openWorkspace } from '../store/open-workspace.ts'
import { text } from './values.ts'
import type { World } from './world.ts'

/** The options of a check that say with which camera it is kept. */
export const saveOptions = {
  'save-to': { takes: 'NAME', says: 'keep it with the camera of this name', read: text },
  workspace: { takes: 'FILE', says: 'the workspace that has the camera; your own unless said', read: text },
}
type Given = { 'save-to': string | undefined; workspace: string | undefined }

/**
 * Keeps what a check found with the camera that was named, if one was; says so in a line for people.
 *
 * @param nominalFps the rate of a camera that is not there yet and is made; null where the check does not tell it
 */
export function keepInCamera(
  given: Given,
  world: World,
  nominalFps: number | null,
  part: (day: string) => Partial<CameraProfileDetails>,
): string {
  const name = given['save-to']?.trim()
  if (name === undefined) return ''
  const file = given.workspace === undefined ? ownWorkspace(world.env) : resolve(given.workspace)
  const now = new Date()
  const workspace = openWorkspace(file, { now: () => now })
  try {
    const found = part(now.toISOString().slice(0, 10))
    const there = workspace.cameras().find(camera => camera.name.toLowerCase() === name.toLowerCase())
    if (there) workspace.updateCamera(there.id, { ...detailsOf(there), ...found })
    else if (nominalFps !== null) workspace.createCamera({ ...unknown, name, nominalFps, ...found })
    else
      throw new WhorlError('usage', {
        what: `There is no camera named “${name}”.`,
        hint: 'Check its rate first, or make it in the app; whorl cameras lists them all.',
      })
    return `kept with the camera ${there?.name ?? name}\n`
  } finally {
    workspace.close()
  }
}

const detailsOf = ({ id: _, ...details }: CameraProfile): CameraProfileDetails => details
const unknown = {
  widthPx: null,
  heightPx: null,
  rate: null,
  readout: null,
  focal: null,
  exposureSeconds: null,
  notes: '',
}
