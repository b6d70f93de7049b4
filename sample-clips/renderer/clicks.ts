import type { Marks } from '../../core/contract/marks.ts'
import { randomFrom } from './random.ts'
import type { Truth, TruthFrame } from './truth-form.ts'

/** How a person went over a clip: which flight, which marks, how many frames, what was known of the camera. */
export type ClickPlan = {
  flight: number
  marks: string[]
  frames: number
  knows: { rateRelativeUncertainty: number; readoutUncertaintySeconds?: number }
  plausible?: Marks['plausible']
  seed: number
}

const CLICK_PX = 1
const OUTLINE_PX = 0.35
/** A mark nearer the rim than this can neither be clicked well nor be called hidden. */
const CLEARLY_SEEN = 0.2
const CLEARLY_HIDDEN = -0.05
const cents = (value: number) => Math.round(value * 100) / 100

/**
 * Marks as a careful person would set them: normal error of 1 px a coordinate on each click, 0.35 px on
 * each outline's middle and radius, "hidden" where the mark is behind.
 */
export function clicksOf(truth: Truth, plan: ClickPlan): Marks {
  const random = randomFrom(`clicks ${plan.seed}`)
  const { capture, tickSeconds } = truth
  const flight = truth.flights[plan.flight]!
  const first = Math.max(0, Math.floor((flight.frames.length - plan.frames) / 2))
  const even = capture.droppedFrames.length === 0
  const stretch = truth.playbackFps / capture.fps
  const coarse = tickSeconds * stretch > 0.02 / capture.fps

  const frame = (at: TruthFrame): Marks['frames'][number] => {
    const near = (value: number, sd: number) => cents(value + sd * random.gauss())
    const seen = plan.marks.filter(id => at.marks[id]!.visible && at.marks[id]!.facing > CLEARLY_SEEN)
    const hidden = plan.marks.filter(id => at.marks[id]!.facing < CLEARLY_HIDDEN)
    return {
      index: at.index,
      ...(even && !coarse ? {} : { timeSeconds: Number((at.fileTimeSeconds * stretch).toFixed(9)) }),
      outline: {
        xPx: near(at.xPx, OUTLINE_PX),
        yPx: near(at.yPx, OUTLINE_PX),
        radiusPx: near(at.radiusPx, OUTLINE_PX),
      },
      seen: seen.map(mark => ({
        mark,
        xPx: near(at.marks[mark]!.xPx, CLICK_PX),
        yPx: near(at.marks[mark]!.yPx, CLICK_PX),
      })),
      ...(hidden.length === 0 ? {} : { hidden }),
    }
  }

  return {
    schema: 'whorl.marks/1',
    capture: {
      fps: capture.fps,
      relativeUncertainty: plan.knows.rateRelativeUncertainty,
      exposureSeconds: capture.exposureSeconds,
      readoutSeconds: capture.readoutSeconds,
      ...(plan.knows.readoutUncertaintySeconds === undefined
        ? {}
        : { readoutUncertaintySeconds: plan.knows.readoutUncertaintySeconds }),
      focalLengthPx: capture.focalLengthPx,
      ...(coarse ? { tickSeconds: tickSeconds * stretch } : {}),
    },
    picture: truth.picture,
    ball: { diameterMetres: truth.ball.diameterMetres },
    ...(plan.plausible === undefined ? {} : { plausible: plan.plausible }),
    marks: truth.marks.filter(({ id }) => plan.marks.includes(id)),
    frames: flight.frames.slice(first, first + plan.frames).map(frame),
    click: { standardUncertaintyPx: CLICK_PX },
  }
}
