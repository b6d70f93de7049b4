import type { Reading } from '../../../core/contract/reading.ts'

/** A reading as the fit would give it, with what a test wants to differ. */
export const sampleReading = (changes: Partial<Reading> = {}): Reading => ({
  window: { fromFrame: 0, toFrame: 20 },
  method: 'bearing',
  rpm: 2331.2,
  sense: 'clockwise',
  band: { lowRpm: 2322, highRpm: 2340.4, level: 0.95 },
  standardUncertaintyRpm: 4.1,
  effectiveDof: 10,
  axis: null,
  parts: null,
  rotationPerFrameDeg: 58.28,
  framesPerRevolution: 6.177,
  flag: 'clear',
  reasons: [],
  ceiling: { rpm: 7200, limit: 'sense' },
  candidates: [{ rpm: 2331.2, sense: 'clockwise', support: 1, plausible: true }],
  counted: { turns: 2, frames: 12, rpm: 2400, lowRpm: 2215, highRpm: 2618 },
  budget: [
    { source: 'marking scatter', standardUncertaintyRpm: 4, kind: 'random', sharedByHits: false },
    { source: 'capture rate', standardUncertaintyRpm: 0.9, kind: 'systematic', sharedByHits: true },
  ],
  flight: null,
  framesUsed: 21,
  ...changes,
})
