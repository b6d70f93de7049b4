import type { CameraProfile, TakenFrom } from '../contract/cameras.ts'

/** What a session takes from a camera: its true rate where that was measured, else the one it is set to. */
export const takenFrom = (camera: CameraProfile): TakenFrom => ({
  name: camera.name,
  captureFps: camera.rate?.captureFps ?? camera.nominalFps,
  relativeUncertainty: camera.rate?.relativeUncertainty ?? null,
  exposureSeconds: camera.exposureSeconds,
  readoutSeconds: camera.readout?.seconds ?? null,
  readoutUncertaintySeconds: camera.readout?.uncertaintySeconds ?? null,
  focalLengthPx: camera.focal?.focalLengthPx ?? null,
})
