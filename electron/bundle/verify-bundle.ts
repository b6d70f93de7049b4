import type { Bundle, BundledHit, Verified } from '../../core/contract/bundle.ts'
import type { Reading } from '../../core/contract/reading.ts'
import type { RatingRow } from '../../core/contract/workspace.ts'
import { studentT } from '../../core/numerics/student-t.ts'
import { readMarks } from '../../core/spin/read-marks.ts'
import { gather } from '../export/gather.ts'
import { differencesIn } from './differences-in.ts'

/** Every figure of a bundle, made anew from what it rests on. */
export function verifyBundle(bundle: Bundle): Verified[] {
  const anew = gather(bundle.hits.map(({ marks: _, pictures: _pictures, ...evidence }) => evidence))
  const rows = new Map(
    anew.flatMap(({ row }) => (row ? [[`${row.paddle}\0${row.setUp}`, row] as const] : [])),
  )
  const stated = new Set(bundle.figures.map(row => `${row.paddle}\0${row.setUp}`))
  return [
    ...bundle.hits.map(verifyHit),
    ...bundle.figures.map(row => verifyFigure(row, rows.get(`${row.paddle}\0${row.setUp}`))),
    ...[...rows]
      .filter(([key]) => !stated.has(key))
      .map(
        ([, row]): Verified => ({
          what: `${row.paddle}, ${row.setUp}`,
          verdict: 'different',
          said: 'its hits give a figure that the bundle does not state',
        }),
      ),
  ]
}

function verifyHit({ row, marks }: BundledHit): Verified {
  const what = `hit ${row.clipName} from frame ${row.window.fromFrame}`
  const { reading } = row
  if (reading === null) return { what, verdict: 'not-checked', said: 'it has no reading' }
  if (marks === null) return verifyWithoutPictures(what, reading)
  return told(what, differencesIn(reading, readMarks(marks)), 'made anew from its marks')
}

/** A reading from the surface needs the pictures; what it says of itself can still be held against itself. */
function verifyWithoutPictures(
  what: string,
  { rpm, band, budget, standardUncertaintyRpm: u, effectiveDof }: Reading,
): Verified {
  if (rpm === null || band === null || u === null || effectiveDof === null)
    return { what, verdict: 'not-checked', said: 'it has no figure' }
  const summed = Math.hypot(...budget.map(line => line.standardUncertaintyRpm))
  const half = studentT((1 + band.level) / 2, effectiveDof) * u
  const faults = [
    ...(budget.length > 0 && !isNear(summed, u)
      ? [`its budget adds up to ${summed.toPrecision(6)}, not ${u.toPrecision(6)} rpm`]
      : []),
    ...(!isNear((band.highRpm - band.lowRpm) / 2, half)
      ? [`its band is not ± ${half.toPrecision(6)} rpm`]
      : []),
  ]
  if (faults.length > 0) return { what, verdict: 'different', said: faults.join('; ') }
  return {
    what,
    verdict: 'not-checked',
    said: 'read from the surface: its pictures are not in the bundle; budget and band agree with each other',
  }
}

const isNear = (a: number, b: number) => Math.abs(a - b) <= 1e-6 * Math.max(Math.abs(a), Math.abs(b), 1e-9)

function verifyFigure(stated: RatingRow, anew: RatingRow | undefined): Verified {
  const what = `${stated.paddle}, ${stated.setUp}`
  if (!anew) return { what, verdict: 'different', said: 'its hits give no figure' }
  return told(what, differencesIn(stated, anew), 'made anew from its hits')
}

const told = (what: string, differences: string[], how: string): Verified =>
  differences.length === 0
    ? { what, verdict: 'same', said: how }
    : { what, verdict: 'different', said: differences.slice(0, 4).join('; ') }
