import { randomUUID } from 'node:crypto'
import { type Mapping, mappingSchema, type Transfer } from '../../core/contract/exchange.ts'
import type { Database } from './database.ts'
import type { Workspace } from './workspace.ts'

type TransferCalls =
  | 'mapping'
  | 'saveMapping'
  | 'transfers'
  | 'addTransfer'
  | 'lastExport'
  | 'wayBackOf'
  | 'markUndone'
type Row = Omit<Transfer, 'canUndo'> & { last: number }

/** What went out and came in, with the way back, and how each place wants its columns. */
export const transferStore = (db: Database, stamp: () => string): Pick<Workspace, TransferCalls> => ({
  mapping: place => {
    const row = db.get<{ mapping: string }>('SELECT mapping FROM target_mapping WHERE target = $place', {
      place,
    })
    return row ? mappingSchema.parse(JSON.parse(row.mapping)) : null
  },
  saveMapping: (place, mapping: Mapping | null) => {
    if (mapping === null) db.run('DELETE FROM target_mapping WHERE target = $place', { place })
    else
      db.run('INSERT OR REPLACE INTO target_mapping (target, mapping) VALUES ($place, $mapping)', {
        place,
        mapping: JSON.stringify(mapping),
      })
  },
  transfers: () =>
    db
      .all<Row>(
        `SELECT id, kind, place, done_at AS doneAt, said, undone_at AS undoneAt,
           rowid = (SELECT max(rowid) FROM transfer later
             WHERE later.kind = transfer.kind AND (later.kind = 'import' OR later.place = transfer.place)
               AND later.undone_at IS NULL) AS last
         FROM transfer ORDER BY rowid DESC LIMIT 200`,
      )
      .map(({ last, ...row }) => ({ ...row, canUndo: last === 1 })),
  addTransfer: ({ kind, place, said, wayBack }) => {
    db.run(
      `INSERT INTO transfer (id, kind, place, done_at, said, way_back)
       VALUES ($id, $kind, $place, $at, $said, $wayBack)`,
      { id: randomUUID(), kind, place, said, at: stamp(), wayBack: JSON.stringify(wayBack) },
    )
  },
  lastExport: place => {
    const row = db.get<{ id: string; said: string; wayBack: string }>(
      `SELECT id, said, way_back AS wayBack FROM transfer
       WHERE kind = 'export' AND place = $place AND undone_at IS NULL ORDER BY rowid DESC LIMIT 1`,
      { place },
    )
    return row ? { ...row, wayBack: JSON.parse(row.wayBack) } : null
  },
  wayBackOf: id => {
    const row = db.get<{ wayBack: string }>('SELECT way_back AS wayBack FROM transfer WHERE id = $id', { id })
    return row ? JSON.parse(row.wayBack) : null
  },
  markUndone: id => {
    db.run('UPDATE transfer SET undone_at = $at WHERE id = $id', { id, at: stamp() })
  },
})
