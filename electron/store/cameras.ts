import { randomUUID } from 'node:crypto'
import type { CameraProfile } from '../../core/contract/cameras.ts'
import type { Database } from './database.ts'
import { found } from './missing.ts'
import { unlessTaken } from './taken.ts'
import type { Workspace } from './workspace.ts'

type CameraRow = { id: string; details: string }

const cameraOf = ({ id, details }: CameraRow): CameraProfile => ({ id, ...JSON.parse(details) })

/** The cameras in their modes, as they were measured. */
export function cameraStore(
  db: Database,
  stamp: () => string,
): Pick<Workspace, 'cameras' | 'createCamera' | 'updateCamera' | 'removeCamera'> {
  const camera = (id: string) =>
    cameraOf(found(db.get<CameraRow>('SELECT id, details FROM camera WHERE id = $id', { id }), 'camera', id))
  return {
    cameras: () => db.all<CameraRow>('SELECT id, details FROM camera ORDER BY name').map(cameraOf),
    createCamera: details => {
      const id = randomUUID()
      unlessTaken('camera', details.name, () =>
        db.run('INSERT INTO camera VALUES ($id, $name, $details, $at)', {
          id,
          name: details.name,
          details: JSON.stringify(details),
          at: stamp(),
        }),
      )
      return camera(id)
    },
    updateCamera: (id, details) => {
      unlessTaken('camera', details.name, () =>
        db.run('UPDATE camera SET name = $name, details = $details WHERE id = $id', {
          id,
          name: details.name,
          details: JSON.stringify(details),
        }),
      )
      return camera(id)
    },
    removeCamera: id => {
      found(db.run('DELETE FROM camera WHERE id = $id', { id }) || undefined, 'camera', id)
    },
  }
}
