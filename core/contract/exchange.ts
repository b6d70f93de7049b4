import { z } from 'zod'

/** What Whorl says of a paddle in a set-up, one field a column of a table. Figures are rpm, not rounded. */
export const fieldNames = [
  'paddle',
  'set_up',
  'mean_rpm',
  'band_low_rpm',
  'band_high_rpm',
  'band_level',
  'hits',
  'flag',
  'ceiling_limit',
  'settled_reason',
  'capture_fps',
  'method_version',
  'date',
  'evidence',
] as const
export const fieldSchema = z.enum(fieldNames)
export type Field = z.infer<typeof fieldSchema>

/** What stands in one cell of a table. */
export const cellSchema = z.union([z.string(), z.number(), z.null()])
export type Cell = z.infer<typeof cellSchema>
export const cellsSchema = z.partialRecord(fieldSchema, cellSchema)
export type Cells = z.infer<typeof cellsSchema>

const name = z.string().min(1).max(300)

/**
 * Where the fields go in a table of the person's own: a field without a column is not written. `names`
 * holds the answers to names that almost match: the paddle as the table calls it, or by its own name when
 * it is another one.
 */
export const mappingSchema = z.object({
  table: z.string().max(300),
  columns: z.partialRecord(fieldSchema, name),
  names: z.array(z.object({ paddle: name, as: name })).default([]),
})
export type Mapping = z.infer<typeof mappingSchema>

/** A table as it lies in a place, with the mapping that its headers suggest (none without a paddle column). */
export type TableSeen = { table: string; columns: string[]; guess: Mapping | null }
/**
 * A place to write to or read from. `place` is how it is shown and remembered: a path, or a server's
 * address without user and password. `mapping` is the one saved for it, null for Whorl's own table.
 */
export type PlaceSeen = { place: string; kind: PlaceKind; tables: TableSeen[]; mapping: Mapping | null }
export const placeKindSchema = z.enum(['sqlite', 'postgres', 'xlsx', 'csv', 'json'])
export type PlaceKind = z.infer<typeof placeKindSchema>

/** One cell of a row that is to change. */
export const cellChangeSchema = z.object({ column: z.string(), before: cellSchema, after: cellSchema })
export type CellChange = z.infer<typeof cellChangeSchema>

/** One export or import that was done, the latest first. `canUndo` only for a place's last export that still stands. */
export type Transfer = {
  id: string
  kind: 'export' | 'import'
  place: string
  /** ISO 8601, UTC. */
  doneAt: string
  said: string
  undoneAt: string | null
  canUndo: boolean
}

/**
 * Which table to read, and which of its columns names the paddle and the set-up. Every other column is a
 * value of the paddle's, but for those that are left out. A null is guessed from the headers.
 */
export const importRulesSchema = z.object({
  table: z.string().max(300).nullable().default(null),
  paddleColumn: name.nullable().default(null),
  /** Empty for a table that has none. */
  setUpColumn: z.string().max(300).nullable().default(null),
  leftOut: z.array(name).default([]),
  names: z.array(z.object({ paddle: name, as: name })).default([]),
})
export type ImportRules = z.infer<typeof importRulesSchema>

/** One row of the person's table, and what it brings. `almost` are the names that have to be told apart first. */
export type ImportLine = {
  row: number
  paddle: string
  setUp: string | null
  action: 'add' | 'change' | 'same' | 'held-back'
  reason: string
  almost: string[]
  changes: CellChange[]
}
export type ImportedColumn = { column: string; name: string; unit: string; kind: 'number' | 'text' }
/** A cell that was not understood: it is not imported. */
export type UnclearCell = { row: number; column: string; text: string; what: string }
export type ImportPlan = {
  place: string
  kind: PlaceKind
  tables: TableSeen[]
  table: string
  paddleColumn: string
  setUpColumn: string | null
  columns: ImportedColumn[]
  lines: ImportLine[]
  unclear: UnclearCell[]
  notes: string[]
  written: boolean
}
