import type { Outline } from '../../contract/marks.ts'
import { sphereOfOutline } from '../../geometry/outline-of-sphere.ts'
import { assumed } from '../../spin/assumptions.ts'
import { brightnessAt, type Luma } from '../luma.ts'
import { lightOf } from './light.ts'
import type { Skew } from './outline.ts'
import { type ShadeSample, shadeOf } from './shell-shade.ts'
import { lightGain, type Shift } from './shift.ts'
import type { SmoothPath } from './smooth.ts'
import { blurPx, type Drawn, type SweptFit, sweptFit } from './swept-disc.ts'

export type CropFrame = { frame: number; timeSeconds: number; luma: Luma }
export type Look = CropFrame & { shift: Shift }
export type PictureFacts = {
  widthPx: number
  heightPx: number
  fps: number
  readoutSeconds: number
  /** Null: not known. */
  exposureSeconds: number | null
  focalLengthPx: number | null
}
/** What is known of a flight before its frames are looked at closely. */
export type Rough = {
  looks: readonly Look[]
  background: Luma
  path: SmoothPath
  /** The path whose radii hold the fits where their frames say little. */
  radii: SmoothPath
  picture: PictureFacts
  skew: Skew
  /** How far its radii may be off, as a share. */
  radiusLooseness: number
}
/** `isCut`: the picture's edge cuts it, so that it had no part in the shade. */
export type SeenOutline = SweptFit & { look: Look; weight: number; isCut: boolean }

/**
 * Share of a ball's difference to the background that the model of a ball must explain; less where the edge cuts it, as whole
 * ones then say how large it is and whence it flies.
 */
const leastExplained = 0.4
const leastExplainedCut = 0.2
/** Share of a ball's width, each way, that the picture must hold at the least. */
const leastHeld = 0.35
/** A shutter that nobody knows, in frame intervals. */
const usualExposure = 0.15
/** A place counts for the shade when the ball covers it for this share of the exposure. */
const leastCovered = 0.6
const samplesAFrame = 160

/** Each frame's outline by the ball's whole appearance, near where the path has it. */
export function seenByAppearance(rough: Rough): SeenOutline[] {
  const { background, path, picture, radiusLooseness } = rough
  const guesses = rough.looks.flatMap(look => {
    const { xPx, yPx, radiusPx } = path.at(look.timeSeconds)
    const guess = { xPx: xPx + look.shift.x, yPx: yPx + look.shift.y, radiusPx }
    if (!(radiusPx > 3) || !isWhole(guess, picture, -2 * (1 - leastHeld) * radiusPx)) return []
    return [{ look, guess, drawn: drawnAt(rough, look, guess), isCut: !isWhole(guess, picture, -1) }]
  })
  const whole = guesses.filter(({ isCut }) => !isCut)
  const shade = shadeOf(whole.flatMap(({ look, guess, drawn }) => samplesOf(look, background, guess, drawn)))
  if (!shade) return []
  return guesses.flatMap(({ look, guess, drawn, isCut }): SeenOutline[] => {
    const { radiusPx } = rough.radii.at(look.timeSeconds)
    const prior = { radiusPx, uncertaintyPx: radiusLooseness * radiusPx }
    const fit = sweptFit(look.luma, background, look.shift, guess, drawn, shade, prior)
    if (!fit || fit.explained < (isCut ? leastExplainedCut : leastExplained)) return []
    const weight = 1 / (fit.centreUncertaintyPx ** 2 + 0.05 ** 2)
    return [{ ...fit, look, weight, isCut }]
  })
}

/** Inside the picture by at least `margin` px. An outline of which that is not so is of a ball that the edge cuts. */
export const isWhole = (
  { xPx, yPx, radiusPx: r }: Outline,
  { widthPx, heightPx }: { widthPx: number; heightPx: number },
  margin = 0.5,
): boolean =>
  xPx - r > margin && yPx - r > margin && xPx + r < widthPx - margin && yPx + r < heightPx - margin

function drawnAt({ path, picture, skew }: Rough, look: Look, guess: Outline): Drawn {
  const { widthPx, heightPx, fps, exposureSeconds, focalLengthPx } = picture
  const half = (exposureSeconds ?? usualExposure / fps) / 2
  const step = 0.5 / fps
  const [before, after] = [path.at(look.timeSeconds - step), path.at(look.timeSeconds + step)]
  const camera = {
    focalPx: focalLengthPx ?? widthPx / 2 / assumed.viewTangent,
    xPx: widthPx / 2,
    yPx: heightPx / 2,
  }
  const { toBall, distanceRadii } = sphereOfOutline(guess, camera)
  const sine = 1 / distanceRadii ** 2
  const [x, y] = [guess.xPx - camera.xPx, guess.yPx - camera.yPx]
  const off = Math.max(Math.hypot(x, y), 1e-9)
  return {
    sweepX: ((after.xPx - before.xPx) / (2 * step)) * half,
    sweepY: ((after.yPx - before.yPx) / (2 * step)) * half,
    skewX: skew.x,
    skewY: skew.y,
    outX: x / off,
    outY: y / off,
    // Half axes of a ball's outline: geometry/outline-of-sphere.ts.
    longer: Math.sqrt((1 - sine) / (toBall[2] ** 2 - sine)),
  }
}

/** Light of the ball's places, the background taken out where it shows through for part of the exposure. */
function samplesOf(
  { luma, shift }: Look,
  background: Luma,
  { xPx, yPx, radiusPx }: Outline,
  { sweepX, sweepY, skewX, skewY }: Drawn,
): ShadeSample[] {
  const samples: ShadeSample[] = []
  const step = Math.max(1, Math.sqrt((Math.PI * radiusPx ** 2) / samplesAFrame))
  const most = 0.97 * radiusPx - 1.5
  const moments = Math.max(1, Math.min(8, Math.ceil(Math.hypot(sweepX, sweepY))))
  const wide = radiusPx + Math.hypot(sweepX, sweepY)
  for (let v = -wide; v < wide; v += step)
    for (let u = -wide; u < wide; u += step) {
      let [covered, x, y] = [0, 0, 0]
      for (let k = 0; k < moments; k++) {
        const at = moments === 1 ? 0 : (2 * k + 1) / moments - 1
        const [du, dv] = [u - at * sweepX, v - at * sweepY]
        const share = Math.max(0, Math.min(1, 0.5 + (radiusPx - Math.sqrt(du * du + dv * dv)) / blurPx))
        covered += share
        x += share * du
        y += share * dv
      }
      const share = covered / moments
      if (share < leastCovered || Math.hypot(x, y) > most * covered) continue
      const column = Math.floor(xPx + u + skewX * v) - luma.xPx
      const row = Math.floor(yPx + v * (1 + skewY)) - luma.yPx
      if (column < 0 || row < 0 || column >= luma.widthPx || row >= luma.heightPx) continue
      const seen = lightOf(luma.data[row * luma.widthPx + column]!)
      const wall =
        share === 1
          ? 0
          : lightOf(
              shift.gain *
                brightnessAt(background, luma.xPx + column + 0.5 - shift.x, luma.yPx + row + 0.5 - shift.y),
            )
      const light = (seen - (1 - share) * wall) / share / lightGain(shift)
      samples.push({
        x: u / radiusPx,
        y: v / radiusPx,
        sweepX: sweepX / radiusPx,
        sweepY: sweepY / radiusPx,
        light,
      })
    }
  return samples
}
