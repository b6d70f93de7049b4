import { type Cell, type Cells, type Field, fieldNames } from '../../core/contract/exchange.ts'
import { type RatingRow, ratingRowSchema } from '../../core/contract/workspace.ts'

type Column = { name: Field; type: 'TEXT' | 'REAL' | 'INTEGER'; of: (row: RatingRow) => Cell }

const made: Record<Field, Omit<Column, 'name'>> = {
  paddle: { type: 'TEXT', of: row => row.paddle },
  set_up: { type: 'TEXT', of: row => row.setUp },
  mean_rpm: { type: 'REAL', of: row => row.meanRpm },
  band_low_rpm: { type: 'REAL', of: row => row.band.lowRpm },
  band_high_rpm: { type: 'REAL', of: row => row.band.highRpm },
  band_level: { type: 'REAL', of: row => row.band.level },
  hits: { type: 'INTEGER', of: row => row.hits },
  flag: { type: 'TEXT', of: row => row.flag },
  ceiling_limit: { type: 'TEXT', of: row => row.limit },
  settled_reason: { type: 'TEXT', of: row => row.settledReason },
  capture_fps: { type: 'TEXT', of: row => row.captureFps },
  method_version: { type: 'TEXT', of: row => row.methodVersion },
  date: { type: 'TEXT', of: row => row.date },
  evidence: { type: 'TEXT', of: row => row.evidence },
}

/** The columns of `whorl_spin`, the same in a database and in a sheet. Figures are not rounded. */
export const columns: readonly Column[] = fieldNames.map(name => ({ name, ...made[name] }))
export const isNumeric = (field: Field) => made[field].type !== 'TEXT'

/** A row's cells in these fields. */
export const cellsOf = (row: RatingRow, fields: readonly Field[]): Cells =>
  Object.fromEntries(fields.map(field => [field, made[field].of(row)]))

/** The row that stored cells say; null where they are not all there or not what Whorl writes. */
export function ratingRowOf(cells: Cells): RatingRow | null {
  const parsed = ratingRowSchema.safeParse({
    paddle: cells.paddle,
    setUp: cells.set_up,
    meanRpm: cells.mean_rpm,
    band: { lowRpm: cells.band_low_rpm, highRpm: cells.band_high_rpm, level: cells.band_level },
    hits: cells.hits,
    flag: cells.flag,
    limit: cells.ceiling_limit || null,
    settledReason: cells.settled_reason ?? '',
    captureFps: cells.capture_fps ?? '',
    methodVersion: cells.method_version,
    date: cells.date,
    evidence: cells.evidence,
  })
  return parsed.success ? parsed.data : null
}
