import type { Method } from '../contract/reading.ts'

/** What a reading rests on, in the words of its reasons: a person's marks, or pictures of the ball's surface. */
export type Wording = {
  /** Many of them. */
  seen: string
  /** How to have at least so many. */
  haveMore: (atLeast: number) => string
  /** Scatter beyond what is usual, px. */
  scatter: (px: string, usualPx: string) => string
}

const ofMarks: Wording = {
  seen: 'marks',
  haveMore: atLeast => `Mark at least ${atLeast}.`,
  scatter: (px, usualPx) =>
    `The marks scatter by ${px} px where clicks err by ${usualPx} px: long smears, or wrong marks.`,
}

const ofSurface: Wording = {
  seen: 'pictures of the ball',
  haveMore: atLeast => `It takes at least ${atLeast}.`,
  scatter: (px, usualPx) =>
    `The pictures of the ball disagree by ${px} px where ${usualPx} px is usual: a wrong outline, or not one steady rotation.`,
}

export const wordingOf = (method: Method): Wording => (method === 'surface' ? ofSurface : ofMarks)
