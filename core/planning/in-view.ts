import type { PlanSetUp } from '../contract/plan.ts'
import { outlineOfSphere, type Pinhole } from '../geometry/outline-of-sphere.ts'
import { degPerFrameOfRpm } from '../units/rate.ts'
import { symmetryOrderOf } from './planned-mark.ts'

export type InView = {
  ballDiameterPx: number
  framesInView: number
  turnsInView: number
  smearDeg: number
  /** Of a mark at the rim that moves across the line of sight. */
  smearPx: number
  flightSmearPx: number
}

/** What the picture holds of a ball that flies across its middle at one distance. */
export function inViewOf(setUp: PlanSetUp): InView {
  const { captureFps, exposureSeconds, distanceMetres, ballDiameterMetres, speedMetresPerSecond } = setUp
  const { radiusPx } = outlineOfSphere(
    { toBall: [0, 0, 1], distanceRadii: distanceMetres / (ballDiameterMetres / 2) },
    pinholeOf(setUp),
  )
  const pxPerSecond = (speedMetresPerSecond * setUp.focalLengthPx) / distanceMetres
  // The whole ball must be in the picture: its centre has a diameter less to travel than the picture is wide.
  const room = Math.max(setUp.widthPx - 2 * radiusPx, 0)
  const framesInView =
    2 * radiusPx > Math.min(setUp.widthPx, setUp.heightPx)
      ? 0
      : Math.floor((room * captureFps) / pxPerSecond) + 1
  const perFrame = degPerFrameOfRpm(setUp.rpm, captureFps)
  const smearDeg = perFrame * captureFps * exposureSeconds
  return {
    ballDiameterPx: 2 * radiusPx,
    framesInView,
    turnsInView: (Math.max(framesInView - 1, 0) * perFrame) / 360,
    smearDeg,
    smearPx: (radiusPx * smearDeg * Math.PI) / 180,
    flightSmearPx: pxPerSecond * exposureSeconds,
  }
}

export const pinholeOf = ({ focalLengthPx, widthPx, heightPx }: PlanSetUp): Pinhole => ({
  focalPx: focalLengthPx,
  xPx: widthPx / 2,
  yPx: heightPx / 2,
})

/** The frames of a hit that are marked: `count` of them, one in `every`. */
export type MarkedFrames = { count: number; every: number }

/** Marked frames are no further apart than this part of the mark's repeat, so that nothing is mistaken. */
const stepOfRepeat = 1 / 4

/**
 * Where more frames show the ball than people mark, they mark every second, every third …, over the whole flight:
 * a long span tells more than close frames.
 */
export function markedFramesOf(setUp: PlanSetUp): MarkedFrames {
  const { framesInView } = inViewOf(setUp)
  const repeatDeg = 360 / symmetryOrderOf(setUp.mark)
  const farthest = Math.floor((stepOfRepeat * repeatDeg) / degPerFrameOfRpm(setUp.rpm, setUp.captureFps))
  const crowd = framesInView / setUp.mostFrames
  const ways = [Math.floor(crowd), Math.ceil(crowd)].map(wanted => {
    const every = Math.max(1, Math.min(wanted, farthest))
    return { count: Math.min(Math.floor((framesInView - 1) / every) + 1, setUp.mostFrames), every }
  })
  // The slope of a line through so many points is known as well as count·span² says.
  const tells = ({ count, every }: MarkedFrames) => count * ((count - 1) * every) ** 2
  return tells(ways[1]!) > tells(ways[0]!) ? ways[1]! : ways[0]!
}
