import type { UsedCamera } from '../../core/contract/workspace.ts'
import { captureFpsOf } from '../../core/marking/capture-fps-of.ts'
import { type ClipRow, clipQuery, recordOf } from './clip-record.ts'
import type { Database } from './database.ts'

type SessionRow = Omit<UsedCamera, 'captureFps' | 'profile'> & {
  cameraFps: number | null
  takenFrom: string | null
}

/** What a reading of the hit takes its camera and ball to be, as they stand now. */
export function usedCamera(db: Database, hitId: string): UsedCamera {
  const { cameraFps, takenFrom, ...camera } = db.get<SessionRow>(
    `SELECT camera_name AS name, capture_fps AS cameraFps, relative_uncertainty AS relativeUncertainty,
       exposure_seconds AS exposureSeconds, readout_seconds AS readoutSeconds,
       readout_uncertainty_seconds AS readoutUncertaintySeconds, focal_length_px AS focalLengthPx,
       ball_diameter_metres AS ballDiameterMetres, camera_taken_from AS takenFrom
     FROM session JOIN clip ON clip.session_id = session.id JOIN hit ON hit.clip_id = clip.id
     WHERE hit.id = $hitId`,
    { hitId },
  )!
  const { probe } = recordOf(
    db.get<ClipRow>(`${clipQuery} WHERE id = (SELECT clip_id FROM hit WHERE id = $hitId)`, { hitId })!,
  )
  const session = { captureFps: cameraFps, relativeUncertainty: camera.relativeUncertainty }
  return {
    ...camera,
    profile: takenFrom === null ? null : JSON.parse(takenFrom).name,
    captureFps: probe ? captureFpsOf(probe, session) : cameraFps,
  }
}
