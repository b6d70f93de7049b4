import type { ClickPlan } from './clicks.ts'
import { freeSpot, type LayoutName } from './layouts.ts'
import type { LogoName } from './logos.ts'
import type { Ball, Camera, Print, Scene } from './scene.ts'

/** A sample clip: what it shows, and how it was clicked. */
export type Case = { scene: Scene; clicks: ClickPlan }

/** One afternoon or evening of the demo: a camera, a ball, a room. */
export type Setting = Pick<Scene, 'lamp' | 'backdrop' | 'room'> & {
  camera: Camera
  ball: Pick<Ball, 'layout' | 'colour'>
  logo: LogoName
  knows: ClickPlan['knows']
}

const benchCamera: Camera = {
  widthPx: 960,
  heightPx: 540,
  fps: 240,
  exposureSeconds: 1 / 2000,
  readoutSeconds: 0,
  focalLengthPx: 1300,
  lensBlurPx: 0.4,
  fullWell: 9000,
  readNoiseElectrons: 12,
  shakePx: 0,
  dropped: [],
}

export const bench: Setting = {
  camera: benchCamera,
  ball: { layout: 'forty', colour: 'lime' },
  logo: 'pennant',
  lamp: 'overhead-panel',
  backdrop: 'hall',
  room: { scale: 1, floorYMetres: 0.24 },
  knows: { rateRelativeUncertainty: 0.0001 },
}
export const evening: Setting = {
  camera: { ...benchCamera, exposureSeconds: 1 / 320, fullWell: 6000 },
  ball: { layout: 'twenty-six', colour: 'orange' },
  logo: 'comet',
  lamp: 'side-window',
  backdrop: 'workshop',
  room: { scale: 1, floorYMetres: 0.23 },
  knows: { rateRelativeUncertainty: 0.0001 },
}
export const phone: Setting = {
  camera: { ...benchCamera, focalLengthPx: 1080, readoutSeconds: 0.0039, fullWell: 7000 },
  ball: { layout: 'forty', colour: 'lime' },
  logo: 'ridge',
  lamp: 'low-sun',
  backdrop: 'court',
  room: { scale: 1, floorYMetres: 0.34 },
  knows: { rateRelativeUncertainty: 0.0005, readoutUncertaintySeconds: 0.0003 },
}

/** A logo on a bare pole and a dot where there is room to the side of it. */
export function printsOf(layout: LayoutName, logo: LogoName): [Print, Print] {
  const aside = freeSpot(layout, [0.95, 0.1, 0.3])
  return [
    { id: 'logo', kind: 'logo', logo, at: [0, 0, 1], up: [1, 0, 0], widthMetres: 0.029, ink: 'navy' },
    { id: 'dot', kind: 'dot', at: aside, up: [0, 0, 1], widthMetres: 0.0095, ink: 'crimson' },
  ]
}
