import type { Field } from '../../../core/contract/exchange.ts'

/** What a person calls each field. */
export const fieldWords: Record<Field, string> = {
  paddle: 'Paddle',
  set_up: 'Set-up',
  mean_rpm: 'Mean, rpm',
  band_low_rpm: 'Band from, rpm',
  band_high_rpm: 'Band to, rpm',
  band_level: 'Band’s probability',
  hits: 'Hits',
  flag: 'Flag',
  ceiling_limit: 'Ceiling’s limit',
  settled_reason: 'Reason of a choice',
  capture_fps: 'Capture rate, fps',
  method_version: 'Method version',
  date: 'Day',
  evidence: 'Evidence',
}
