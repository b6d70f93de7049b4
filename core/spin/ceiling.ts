import type { Ceiling } from '../contract/reading.ts'
import { aliasesAreBroken } from './alias.ts'
import { countedHalfWidthFrames } from './count.ts'
import type { Estimate } from './estimate.ts'
import type { Observations } from './observations.ts'

export type CeilingFacts = {
  fps: number
  symmetryOrder: number
  senseKnown: boolean
  /** Part of a turn for which the mark shows, 0 to 1. */
  visiblePart: number
  exposureSeconds: number | null
  /** Half-width of the counted band that the reviewer asks for, and the frames there are to count. */
  counting: { halfWidthRpm: number; frames: number } | null
}

/**
 * The limits of method.md, "The frame-rate ceiling", lowest first; the ceiling of a hit is the first.
 *
 * sense: rotation per frame reaches half the mark's repeat (all of it when the sense is known).
 * seeing: the mark must be seen in two frames running; no limit for a mark that always shows.
 * smear: the smear's arc reaches a quarter of the repeat, or 45°.
 * counting: over all frames n the counted half-width is rpm·0.776/n.
 */
export function ceilingsOf(facts: CeilingFacts): Ceiling[] {
  const { fps, symmetryOrder: m, visiblePart, exposureSeconds, counting } = facts
  const ceilings: Ceiling[] = [{ rpm: (60 * fps) / (facts.senseKnown ? m : 2 * m), limit: 'sense' }]
  if (visiblePart < 1) ceilings.push({ rpm: (60 * fps * visiblePart) / 2, limit: 'seeing' })
  if (exposureSeconds) ceilings.push({ rpm: Math.min(45, 90 / m) / (6 * exposureSeconds), limit: 'smear' })
  if (counting)
    ceilings.push({
      rpm: (counting.halfWidthRpm * counting.frames) / countedHalfWidthFrames,
      limit: 'counting',
    })
  return ceilings.sort((a, b) => a.rpm - b.rpm)
}

/** The ceiling of one hit; the mark that repeats least, and shows most, sets it. Null when nothing limits it. */
export function ceilingOf(estimate: Estimate, o: Observations): Ceiling | null {
  const seen = [...new Set(o.sightings.map(sighting => sighting.mark))]
  const times = o.sightings.map(sighting => o.frames[sighting.frame]!.timeSeconds)
  const frames = Math.round((Math.max(...times) - Math.min(...times)) * o.capture.fps)
  const ceilings = ceilingsOf({
    fps: o.capture.fps,
    symmetryOrder: Math.min(...seen.map(mark => o.marks[mark]!.symmetryOrder)),
    senseKnown: o.plausible.sense !== null,
    visiblePart: Math.max(...seen.map(mark => visiblePartOf(mark, o))),
    exposureSeconds: o.capture.exposureSeconds,
    counting: o.wantedHalfWidthRpm ? { halfWidthRpm: o.wantedHalfWidthRpm, frames } : null,
  })
  const broken = aliasesAreBroken(estimate, o)
  return ceilings.find(ceiling => !(broken && ceiling.limit === 'sense')) ?? null
}

/** Frames in which a mark was seen among those in which it was looked for. */
function visiblePartOf(mark: number, o: Observations): number {
  const shown = o.sightings.filter(sighting => sighting.mark === mark).length
  const hidden = o.hidden.filter(one => one.mark === mark).length
  return shown / (shown + hidden)
}
