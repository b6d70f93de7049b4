import type { Service } from '../../core/contract/calls.ts'
import type { Parts } from './parts.ts'

type Calls = 'cameras.list' | 'cameras.keep' | 'cameras.remove'

/** Cameras as they were measured. What a session took from one is its own: nothing is read again here. */
export const cameraCalls = ({ workspace, bus }: Parts): Pick<Service, Calls> => {
  const changed = () => bus.say({ kind: 'changed', what: 'cameras', id: null })
  return {
    'cameras.list': async () => workspace.cameras(),
    'cameras.keep': async ({ cameraId, details }) => {
      const kept =
        cameraId === null ? workspace.createCamera(details) : workspace.updateCamera(cameraId, details)
      changed()
      return kept
    },
    'cameras.remove': async ({ cameraId }) => {
      workspace.removeCamera(cameraId)
      changed()
      return null
    },
  }
}
