import type { Candidate } from '../../../../core/contract/reading.ts'

/** A candidate's rate as the slope of its line, degrees a second, clockwise positive. */
export const signedDegPerSecond = (candidate: Pick<Candidate, 'rpm' | 'sense'>): number =>
  (candidate.sense === 'counter-clockwise' ? -6 : 6) * candidate.rpm
