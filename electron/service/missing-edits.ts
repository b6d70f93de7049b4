import type { Edit, HitMarks, PlacedSighting } from '../../core/contract/bench.ts'
import type { Marks } from '../../core/contract/marks.ts'

/**
 * The steps that bring what a `whorl.marks/1` document says into a hit. What the hit has already, in the
 * same frame and of the same mark, is a person's work and stays.
 */
export function missingEdits(hit: HitMarks, { marks, frames }: Marks): Edit[] {
  const sightings = frames.flatMap(({ index: frame, seen, hidden = [] }): PlacedSighting[] => [
    ...seen.map(
      (sighting): PlacedSighting =>
        'bearingDeg' in sighting
          ? { kind: 'direction', frame, ...sighting }
          : { kind: 'point', frame, mark: sighting.mark, xPx: sighting.xPx, yPx: sighting.yPx },
    ),
    ...hidden.map((mark): PlacedSighting => ({ kind: 'hidden', frame, mark })),
  ])
  const kindOf = (id: string) =>
    sightings.some(sighting => sighting.mark === id && sighting.kind === 'direction') ? 'direction' : 'point'
  const isFresh = hit.outlines.length === 0 && hit.sightings.length === 0
  return [
    ...marks
      .filter(({ id }) => isFresh || !hit.marks.some(mark => mark.id === id))
      .map((mark): Edit => ({ kind: 'put-mark', mark: { ...mark, kind: kindOf(mark.id) } })),
    ...frames
      .filter(({ index, outline }) => outline && !hit.outlines.some(placed => placed.frame === index))
      .map(({ index, outline }): Edit => ({ kind: 'place-outline', outline: { frame: index, ...outline! } })),
    ...sightings
      .filter(({ frame, mark }) => !hit.sightings.some(seen => seen.frame === frame && seen.mark === mark))
      .map((sighting): Edit => ({ kind: 'place-sighting', sighting })),
  ]
}
