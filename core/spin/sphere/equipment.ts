import type { Pinhole } from '../../geometry/outline-of-sphere.ts'
import { assumed } from '../assumptions.ts'
import type { Observations } from '../observations.ts'

/** What the fit takes the camera to be. Where nobody says, the middle of what is plausible, and how far it goes. */
export type Equipment = {
  camera: Pinhole
  /** No focal length is known; then `steeperCamera` sees wider by one standard uncertainty of the field of view. */
  viewIsOpen: boolean
  steeperCamera: Pinhole
  readoutSeconds: number
  readoutUncertaintySeconds: number
}

/** The camera of a hit; its principal point is taken to be the middle of the picture. */
export function equipmentOf({ capture, picture }: Observations): Equipment {
  const camera = (focalPx: number): Pinhole => ({
    focalPx,
    xPx: picture.widthPx / 2,
    yPx: picture.heightPx / 2,
  })
  const { focalLengthPx, readoutSeconds, readoutUncertaintySeconds, fps } = capture
  const tangent = assumed.viewTangent
  const steeper = tangent + assumed.viewTangentUncertainty
  const half = picture.widthPx / 2
  return {
    camera: camera(focalLengthPx ?? half / tangent),
    viewIsOpen: focalLengthPx === null,
    steeperCamera: camera(focalLengthPx ?? half / steeper),
    readoutSeconds: readoutSeconds ?? assumed.readoutIntervals / fps,
    readoutUncertaintySeconds:
      readoutSeconds === null
        ? assumed.readoutIntervalsUncertainty / fps
        : (readoutUncertaintySeconds ?? readoutSeconds * assumed.readoutRelative),
  }
}
