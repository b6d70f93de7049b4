import type { FrameWindow, HitMarks } from '../contract/bench.ts'

/** A hit before any work on it: one point mark, the ball's logo, which looks the same once a turn. */
export const newHitMarks = (window: FrameWindow): HitMarks => ({
  window,
  marks: [{ id: 'logo', kind: 'point', symmetryOrder: 1 }],
  outlines: [],
  sightings: [],
  sense: null,
  settled: null,
  verdict: { state: 'open', reason: '' },
})
