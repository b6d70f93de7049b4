import type { Ceiling, Counted, Reading } from '../../core/contract/reading.ts'
import { digits } from './figure-text.ts'

/** `58.3° a frame, 6.18 a turn`: how the ball turns under this camera. Null for a ball that stands still. */
export function turningWords(
  reading: Pick<Reading, 'rotationPerFrameDeg' | 'framesPerRevolution'>,
): string | null {
  const { rotationPerFrameDeg: deg, framesPerRevolution: frames } = reading
  if (deg === null || frames === null) return null
  return `${deg.toFixed(1)}° a frame, ${frames < 100 ? frames.toFixed(2) : digits(frames)} a turn`
}

/** What counting frames by eye would have said: `2304 (2215–2400)`. */
export const countedWords = (counted: Counted): string =>
  `${digits(counted.rpm)} (${digits(counted.lowRpm)}–${digits(counted.highRpm)})`

const limits: Record<Ceiling['limit'], string> = {
  sense: 'faster, its sense is lost',
  seeing: 'faster, the mark is missed',
  smear: 'faster, the mark smears',
  counting: 'faster, counting is too coarse',
}
export const ceilingWords = (ceiling: Ceiling): string => limits[ceiling.limit]
