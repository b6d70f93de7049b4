import type {
  BenchMark,
  FrameWindow,
  HitMarks,
  PlacedOutline,
  PlacedSighting,
  SingleEdit,
} from '../contract/bench.ts'
import { WhorlError } from '../contract/problem.ts'

const refuse = (what: string, hint: string): never => {
  throw new WhorlError('edit-refused', { what, hint })
}

const checkFrame = (frame: number) => {
  if (!Number.isInteger(frame) || frame < 0)
    refuse(`A frame is a whole number from 0; ${frame} came.`, 'Choose a frame of the clip.')
}

const checkNumbers = (...values: number[]) => {
  const bad = values.find(value => !Number.isFinite(value))
  if (bad !== undefined) refuse(`A place needs finite numbers; ${bad} came.`, 'Click the place again.')
}

const markOf = (hit: HitMarks, id: string): BenchMark =>
  hit.marks.find(mark => mark.id === id) ??
  refuse(`This hit has no mark “${id}”.`, `Use one of: ${hit.marks.map(mark => mark.id).join(', ')}.`)

const alike = (id: string) => id.trim().toLowerCase()

function checkWindow({ fromFrame, toFrame }: FrameWindow) {
  checkFrame(fromFrame)
  checkFrame(toFrame)
  if (toFrame < fromFrame) throw new WhorlError('window-empty', { fromFrame, toFrame })
}

function checkOutline(outline: PlacedOutline) {
  checkFrame(outline.frame)
  checkNumbers(outline.xPx, outline.yPx, outline.radiusPx)
  if (outline.radiusPx <= 0)
    refuse(`An outline needs a radius above 0; ${outline.radiusPx} came.`, 'Place the rim points again.')
}

function checkSighting(hit: HitMarks, sighting: PlacedSighting) {
  checkFrame(sighting.frame)
  const mark = markOf(hit, sighting.mark)
  if (sighting.kind === 'hidden') return
  if (sighting.kind !== mark.kind)
    refuse(
      `“${mark.id}” is followed as a ${mark.kind}; a ${sighting.kind} came.`,
      'Mark it the way it is followed, or add a second mark.',
    )
  if (sighting.kind === 'point') checkNumbers(sighting.xPx, sighting.yPx)
  else checkNumbers(sighting.bearingDeg)
}

function checkMark(hit: HitMarks, mark: BenchMark) {
  if (mark.id.trim() === '') refuse('A mark needs a name.', 'Name it for what it is: logo, dot, line, hole.')
  const twin = hit.marks.find(other => other.id !== mark.id && alike(other.id) === alike(mark.id))
  if (twin) refuse(`There is already a mark “${twin.id}”.`, 'Choose a name that cannot be mistaken for it.')
  if (!Number.isInteger(mark.symmetryOrder) || mark.symmetryOrder < 1 || mark.symmetryOrder > 8)
    refuse(
      `A symmetry order is a whole number from 1 to 8; ${mark.symmetryOrder} came.`,
      'It says how many times in one turn the mark looks the same.',
    )
  const unlike = hit.sightings.find(
    seen => seen.mark === mark.id && seen.kind !== 'hidden' && seen.kind !== mark.kind,
  )
  if (unlike)
    refuse(
      `“${mark.id}” has been marked as a ${unlike.kind} already.`,
      `Remove its sightings first, or add a second mark for the ${mark.kind}.`,
    )
}

/** Throws `edit-refused` (or `window-empty`) when the edit makes no sense for this hit. */
export function checkEdit(hit: HitMarks, edit: SingleEdit): void {
  switch (edit.kind) {
    case 'set-window':
      checkWindow(edit.window)
      break
    case 'place-outline':
      checkOutline(edit.outline)
      break
    case 'remove-outline':
      if (!hit.outlines.some(outline => outline.frame === edit.frame))
        refuse(`Frame ${edit.frame} has no placed outline.`, 'Its outline comes from its neighbours.')
      break
    case 'place-sighting':
      checkSighting(hit, edit.sighting)
      break
    case 'remove-sighting':
      if (!hit.sightings.some(seen => seen.frame === edit.frame && seen.mark === edit.mark))
        refuse(`“${edit.mark}” is not marked in frame ${edit.frame}.`, 'There is nothing to remove.')
      break
    case 'put-mark':
      checkMark(hit, edit.mark)
      break
    case 'remove-mark':
      markOf(hit, edit.mark)
      if (hit.marks.length === 1)
        refuse(`“${edit.mark}” is the only mark of this hit.`, 'Add another mark before removing it.')
      break
    case 'settle':
      if (edit.settled) checkNumbers(edit.settled.rpm)
      break
  }
}
