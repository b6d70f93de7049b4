import { type BallView, ballView, placeAt } from '../../geometry/ball-view.ts'
import { placeUncertainty } from '../../geometry/place-uncertainty.ts'
import type { Vector } from '../../geometry/vector.ts'
import { assumed } from '../assumptions.ts'
import { ballVelocity } from '../ball-velocity.ts'
import type { Observations } from '../observations.ts'
import { equipmentOf } from './equipment.ts'

type Seen = {
  /** Position in `Observations.sightings`. */
  sighting: number
  frame: number
  /** Position in `Sights.marks`. */
  mark: number
  /** From the middle of all sightings; when the mark's row was read, with the likely readout. */
  timeSeconds: number
  /** The view for the likely focal length, and for one that is shorter by its uncertainty (see equipment). */
  view: BallView | null
  steeperView: BallView | null
  /** Share of the picture above the mark's row: what of the readout is its delay. */
  rowShare: number
}
export type PointSight = Seen & {
  view: BallView
  xPx: number
  yPx: number
  /** Where the sighting stands between the first (−1) and the last (1). */
  lateShare: number
  /** How far the ball flies in the picture while the rows from its middle to the mark are read, px a second of readout. */
  driftX: number
  driftY: number
  /** By what share the outline is taken too large for a second of readout: a falling ball is longer by what it falls. */
  stretchPerSecond: number
  /** Where on the ball the click lies, unit vector in camera axes. */
  place: Vector
  /** How well `place` is known: 1 in the middle of the ball, falling towards the rim. */
  weight: number
}
export type DirectionSight = Seen & {
  bearingRad: number
  /** Radius at which a bearing error is measured as an arc, so that it weighs like a click beside it. */
  radiusPx: number
  /** The same as a share of the picture's height, 0 where no outline says where on the ball a row lies. */
  radiusShare: number
}
export type HiddenSight = Pick<Seen, 'frame' | 'mark' | 'timeSeconds' | 'rowShare'> & { view: BallView }

/** What the sphere fit works on: sightings with their times and views, sorted by kind. */
export type Sights = {
  marks: { mark: number; symmetryOrder: number }[]
  points: PointSight[]
  directions: DirectionSight[]
  hidden: HiddenSight[]
  /** Time that `timeSeconds` counts from. */
  originSeconds: number
  spanSeconds: number
  framesPerSecond: number
  outlineCount: number
  /** Typical outline radius; 1 where there is none. */
  radiusPx: number
  /** Of the ball in the picture, px a second. */
  velocity: { x: number; y: number }
  /** By frame: how it shows the ball (null without an outline), and when, from the same origin. */
  views: (BallView | null)[]
  timesOfFrames: number[]
  /** What is taken for the readout, and standard uncertainty of it; 0 where nothing is left open. */
  readoutSeconds: number
  readoutUncertaintySeconds: number
  /** Whether `steeperView` differs from `view`: no focal length is known. */
  viewIsOpen: boolean
}

/** A click error, in radii, that stands for all clicks when places are weighed against each other. */
const typicalClickRadii = 0.03

/** Sorts and prepares sightings; a mark that is never seen says nothing and is left out. */
export function sightsOf(o: Observations): Sights {
  const equipment = equipmentOf(o)
  const { readoutSeconds } = equipment
  const velocity = ballVelocity(o.frames)
  // A picture of a ball that moves down is stretched by what it moves while its own rows are read.
  const stretchPerSecond = velocity.y / (2 * o.picture.heightPx)
  const stretch = 1 + stretchPerSecond * readoutSeconds
  const outlines = o.frames.map(
    ({ outline }) => outline && { ...outline, radiusPx: outline.radiusPx / stretch },
  )
  const views = outlines.map(outline => outline && ballView(outline, equipment.camera))
  const steeper = equipment.viewIsOpen
    ? outlines.map(outline => outline && ballView(outline, equipment.steeperCamera))
    : views
  const radii = outlines.flatMap(outline => (outline ? [outline.radiusPx] : []))
  const shareOfRow = (yPx: number) => yPx / o.picture.heightPx
  const shareOfFrame = (frame: number) => shareOfRow(outlines[frame]?.yPx ?? o.picture.heightPx / 2)
  const timesOfFrames = o.frames.map((f, i) => f.timeSeconds + readoutSeconds * shareOfFrame(i))
  const seenMarks = [...new Set(o.sightings.map(s => s.mark))].sort((a, b) => a - b)
  const markOf = new Map(seenMarks.map((mark, i) => [mark, i]))

  const points: PointSight[] = []
  const directions: DirectionSight[] = []
  const hidden: HiddenSight[] = []
  o.sightings.forEach((s, sighting) => {
    const view = views[s.frame] ?? null
    const { frame } = s
    const rowShare = s.kind === 'point' ? shareOfRow(s.yPx) : shareOfFrame(frame)
    const mark = markOf.get(s.mark)!
    const timeSeconds = o.frames[frame]!.timeSeconds + readoutSeconds * rowShare
    const steeperView = steeper[frame] ?? null
    if (s.kind === 'direction') {
      // Judged along a line through the ball: as good as a click at the rim, or as eyes are without one.
      const reach = view?.outline.radiusPx ?? (o.clickPx ?? assumed.clickPx) / assumed.directionRad
      const radiusShare = view ? shareOfRow(view.outline.radiusPx) : 0
      directions.push({
        sighting,
        frame,
        mark,
        timeSeconds,
        view,
        steeperView,
        rowShare,
        bearingRad: s.bearingRad,
        radiusPx: reach,
        radiusShare,
      })
    } else if (view) {
      const fromMiddle = rowShare - shareOfRow(view.outline.yPx)
      const [driftX, driftY] = [velocity.x * fromMiddle, velocity.y * fromMiddle]
      const [xPx, yPx] = [s.xPx - driftX * readoutSeconds, s.yPx - driftY * readoutSeconds]
      const offset = Math.hypot(xPx - view.outline.xPx, yPx - view.outline.yPx) / view.outline.radiusPx
      const away = placeUncertainty(offset, typicalClickRadii)
      const weight = (away.aroundRad / away.towardsRimRad) ** 2
      points.push({
        sighting,
        frame,
        mark,
        timeSeconds,
        view,
        steeperView,
        rowShare,
        lateShare: 0,
        xPx,
        yPx,
        driftX,
        driftY,
        stretchPerSecond,
        place: placeAt(view, xPx, yPx),
        weight,
      })
    }
  })
  for (const h of o.hidden) {
    const view = views[h.frame]
    const mark = markOf.get(h.mark)
    // Of a line only its run is known, not where on the ball it is: its being hidden says nothing.
    if (!view || mark === undefined || !points.some(s => s.mark === mark)) continue
    hidden.push({
      frame: h.frame,
      mark,
      timeSeconds: timesOfFrames[h.frame]!,
      rowShare: shareOfFrame(h.frame),
      view,
    })
  }
  const times = [...points, ...directions].map(s => s.timeSeconds)
  const first = Math.min(...times)
  const last = Math.max(...times)
  const originSeconds = (first + last) / 2
  for (const s of [...points, ...directions, ...hidden]) s.timeSeconds -= originSeconds
  for (const s of points) s.lateShare = (2 * s.timeSeconds) / Math.max(last - first, 1e-9)
  return {
    marks: seenMarks.map(mark => ({ mark, symmetryOrder: o.marks[mark]!.symmetryOrder })),
    points,
    directions,
    hidden,
    originSeconds,
    spanSeconds: last - first,
    framesPerSecond: o.capture.fps,
    outlineCount: radii.length,
    radiusPx: radii.length > 0 ? radii.reduce((a, b) => a + b) / radii.length : 1,
    velocity,
    views,
    timesOfFrames: timesOfFrames.map(t => t - originSeconds),
    readoutSeconds,
    readoutUncertaintySeconds: equipment.readoutUncertaintySeconds,
    viewIsOpen: equipment.viewIsOpen && radii.length > 0,
  }
}
