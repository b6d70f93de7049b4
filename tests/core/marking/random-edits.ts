import fc from 'fast-check'
import type { Edit, HitMarks } from '../../../core/contract/bench.ts'
import { WhorlError } from '../../../core/contract/problem.ts'
import { applyEdit } from '../../../core/marking/apply-edit.ts'
import { newHitMarks } from '../../../core/marking/new-hit-marks.ts'

const frame = fc.integer({ min: 0, max: 6 })
const mark = fc.constantFrom('logo', 'dot', 'line')
/** In steps of 1/64: one of the SQLite drivers stores what is within 2e-16 of a whole number as that. */
const px = fc.integer({ min: -50 * 64, max: 2000 * 64 }).map(steps => steps / 64)
const sense = fc.option(fc.constantFrom('clockwise' as const, 'counter-clockwise' as const))
const record = <K extends Edit['kind']>(kind: K, rest: object) =>
  fc.record({ kind: fc.constant(kind), ...rest }) as unknown as fc.Arbitrary<Extract<Edit, { kind: K }>>

/** Any edit, sensible or not: few frames and few marks, so that edits meet each other often. */
export const anyEdit: fc.Arbitrary<Edit> = fc.oneof(
  record('set-window', { window: fc.record({ fromFrame: frame, toFrame: frame }) }),
  record('place-outline', {
    outline: fc.record({ frame, xPx: px, yPx: px, radiusPx: fc.double({ min: 1, max: 90, noNaN: true }) }),
  }),
  record('remove-outline', { frame }),
  record('place-sighting', {
    sighting: fc.oneof(
      record('point' as never, { frame, mark, xPx: px, yPx: px }),
      record('direction' as never, { frame, mark, bearingDeg: px }),
      record('hidden' as never, { frame, mark }),
    ),
  }),
  record('remove-sighting', { frame, mark }),
  record('put-mark', {
    mark: fc.record({
      id: mark,
      kind: fc.constantFrom('point', 'direction'),
      symmetryOrder: fc.integer({ min: 1, max: 8 }),
    }),
  }),
  record('remove-mark', { mark }),
  record('set-sense', { sense }),
  record('settle', {
    settled: fc.option(
      fc.record({ rpm: px.filter(v => v >= 0), sense: fc.constant('clockwise'), reason: fc.constant('a') }),
    ),
  }),
  record('decide', {
    verdict: fc.record({ state: fc.constantFrom('open', 'accepted', 'held-back'), reason: fc.string() }),
  }),
)

/** The edit applied, or null where it was refused. */
export function tryEdit(hit: HitMarks, edit: Edit) {
  try {
    return applyEdit(hit, edit)
  } catch (refused) {
    if (refused instanceof WhorlError && /^(edit-refused|window-empty)$/.test(refused.code)) return null
    throw refused
  }
}

/** A hit that a person has worked on for a while. */
export const workedHit = fc
  .array(anyEdit, { maxLength: 40 })
  .map(edits =>
    edits.reduce((hit, edit) => tryEdit(hit, edit)?.hit ?? hit, newHitMarks({ fromFrame: 0, toFrame: 6 })),
  )
