import type { Sense } from '../contract/marks.ts'

/** The sense of a signed rate: clockwise on the screen (rotation vector z > 0) is positive. Null for 0. */
export const senseOfRate = (rate: number): Sense | null =>
  rate > 0 ? 'clockwise' : rate < 0 ? 'counter-clockwise' : null

/** 1 for clockwise, −1 for counter-clockwise. */
export const signOfSense = (sense: Sense): 1 | -1 => (sense === 'clockwise' ? 1 : -1)
