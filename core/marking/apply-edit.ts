import type { Edit, HitMarks, PlacedOutline, PlacedSighting, SingleEdit } from '../contract/bench.ts'
import { checkEdit } from './check-edit.ts'

/** The hit after an edit, and the edits that bring the hit before it back, in the order to apply them. */
export type Applied = { hit: HitMarks; inverse: Edit[] }

const byFrame = (a: PlacedOutline, b: PlacedOutline) => a.frame - b.frame
const byId = (a: { id: string }, b: { id: string }) => (a.id < b.id ? -1 : 1)
const byFrameAndMark = (a: PlacedSighting, b: PlacedSighting) =>
  a.frame - b.frame || (a.mark < b.mark ? -1 : 1)

/** The hit with its lists in the one order that edits keep: marks by id, the rest by frame. */
export const inOrder = (hit: HitMarks): HitMarks => ({
  ...hit,
  marks: hit.marks.toSorted(byId),
  outlines: hit.outlines.toSorted(byFrame),
  sightings: hit.sightings.toSorted(byFrameAndMark),
})

/**
 * One step of a person's work on a hit. Neither argument is changed. Whether frames lie inside the clip
 * is for the caller to see, who knows the clip; sightings outside the window stay and come back with it.
 *
 * @throws `edit-refused` for what makes no sense on this hit, `window-empty` for a window without a frame.
 */
export function applyEdit(hit: HitMarks, edit: Edit): Applied {
  if (edit.kind === 'together') {
    const steps: Edit[][] = []
    let changed = hit
    for (const one of edit.edits) {
      const applied = applyEdit(changed, one)
      changed = applied.hit
      steps.unshift(applied.inverse)
    }
    return { hit: changed, inverse: steps.flat() }
  }
  checkEdit(hit, edit)
  const { hit: changed, inverse } = change(hit, edit)
  return { hit: inOrder(changed), inverse }
}

function change(hit: HitMarks, edit: SingleEdit): Applied {
  switch (edit.kind) {
    case 'set-window':
      return {
        hit: { ...hit, window: edit.window },
        inverse: [{ kind: 'set-window', window: hit.window }],
      }
    case 'place-outline': {
      const { frame } = edit.outline
      const before = hit.outlines.find(outline => outline.frame === frame)
      const others = hit.outlines.filter(outline => outline !== before)
      return {
        hit: { ...hit, outlines: [...others, edit.outline] },
        inverse: [before ? { kind: 'place-outline', outline: before } : { kind: 'remove-outline', frame }],
      }
    }
    case 'remove-outline': {
      const gone = hit.outlines.filter(outline => outline.frame === edit.frame)
      return {
        hit: { ...hit, outlines: hit.outlines.filter(outline => !gone.includes(outline)) },
        inverse: gone.map(outline => ({ kind: 'place-outline', outline })),
      }
    }
    case 'place-sighting': {
      const { frame, mark } = edit.sighting
      const before = hit.sightings.find(seen => seen.frame === frame && seen.mark === mark)
      const others = hit.sightings.filter(seen => seen !== before)
      return {
        hit: { ...hit, sightings: [...others, edit.sighting] },
        inverse: [
          before ? { kind: 'place-sighting', sighting: before } : { kind: 'remove-sighting', frame, mark },
        ],
      }
    }
    case 'remove-sighting': {
      const gone = hit.sightings.filter(seen => seen.frame === edit.frame && seen.mark === edit.mark)
      return withoutSightings(hit, gone)
    }
    case 'put-mark': {
      const before = hit.marks.find(mark => mark.id === edit.mark.id)
      return {
        hit: { ...hit, marks: [...hit.marks.filter(mark => mark !== before), edit.mark] },
        inverse: [before ? { kind: 'put-mark', mark: before } : { kind: 'remove-mark', mark: edit.mark.id }],
      }
    }
    case 'remove-mark': {
      const gone = hit.marks.filter(mark => mark.id === edit.mark)
      const rest = withoutSightings(
        hit,
        hit.sightings.filter(seen => seen.mark === edit.mark),
      )
      return {
        hit: { ...rest.hit, marks: hit.marks.filter(mark => !gone.includes(mark)) },
        inverse: [...gone.map((mark): Edit => ({ kind: 'put-mark', mark })), ...rest.inverse],
      }
    }
    case 'set-sense':
      return { hit: { ...hit, sense: edit.sense }, inverse: [{ kind: 'set-sense', sense: hit.sense }] }
    case 'settle':
      return { hit: { ...hit, settled: edit.settled }, inverse: [{ kind: 'settle', settled: hit.settled }] }
    case 'decide':
      return { hit: { ...hit, verdict: edit.verdict }, inverse: [{ kind: 'decide', verdict: hit.verdict }] }
    case 'read-from':
      return {
        hit: { ...hit, readFrom: edit.source },
        inverse: [{ kind: 'read-from', source: hit.readFrom ?? 'marks' }],
      }
  }
}

const withoutSightings = (hit: HitMarks, gone: PlacedSighting[]): Applied => ({
  hit: { ...hit, sightings: hit.sightings.filter(seen => !gone.includes(seen)) },
  inverse: gone.map(sighting => ({ kind: 'place-sighting', sighting })),
})
