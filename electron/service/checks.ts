import { basename } from 'node:path'
import type { Service } from '../../core/contract/calls.ts'
import { checkClip } from './check-clip.ts'
import { pathInside } from './folders.ts'
import type { Parts } from './parts.ts'
import { clipsFolderOf } from './receive.ts'

type Calls = 'checks.look' | 'checks.run'

/** Checks of a camera by clips that belong to no session. */
export const checkCalls = ({ workspace, media, vision, loose, ...parts }: Parts): Pick<Service, Calls> => {
  const folders = parts.folders && [...parts.folders, clipsFolderOf(workspace.file)]
  return {
    'checks.look': async ({ path }, { signal }) => {
      const whole = pathInside(folders, path)
      const { length } = await media.timestamps(whole, { signal })
      const { widthPx, heightPx, done } = await media.frame(whole, 0, { signal })
      done?.()
      return { id: loose.put(whole), name: basename(whole), frames: length, widthPx, heightPx }
    },
    'checks.run': async ({ path, ask }, job) =>
      checkClip({ media, vision }, pathInside(folders, path), ask, job),
  }
}
