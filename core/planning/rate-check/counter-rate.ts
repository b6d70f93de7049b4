import { notFound, type RateFound } from './rate-found.ts'

export type CounterRun = {
  /** The first frames that show a new count, early and late in the clip. */
  fromFrame: number
  toFrame: number
  /** Steps that the counter made between them, and how long one takes. */
  steps: number
  stepSeconds: number
}

/**
 * The capture rate from a clock or counter in the picture. A change happened within the frame before the one
 * that first shows it (rectangular, 1/√12 frame at each end, JCGM 100:2008, 4.3.7), so 1/√6 frame together.
 *
 * @param clockRelative how well the counter's own clock is known; a quartz is within 50 ppm (common practice)
 */
export function counterRate(
  { fromFrame, toFrame, steps, stepSeconds }: CounterRun,
  clockRelative = 5e-5,
): RateFound {
  const frames = toFrame - fromFrame
  if (!(frames > 1) || !(steps >= 1))
    return notFound(
      `From frame ${fromFrame} to ${toFrame} the counter makes ${steps} steps: nothing to reckon with.`,
      'Give the first frame that shows a new count, once early and once late in the clip.',
    )
  return {
    measured: true,
    captureFps: frames / (steps * stepSeconds),
    relativeUncertainty: Math.hypot(1 / Math.sqrt(6) / frames, clockRelative),
    remarks: [`${frames} frames in ${Number((steps * stepSeconds).toPrecision(6))} s.`],
  }
}
