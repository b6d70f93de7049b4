import type { BenchHit } from '../../core/contract/workspace.ts'
import type { Database } from './database.ts'
import type { SurfaceOfHit } from './workspace.ts'

type Row = { asked: string; reading: string; focalLengthPx: number | null; feature: string | null }

export function surfaceOfHit(db: Database, hitId: string): SurfaceOfHit | null {
  const row = db.get<Row>(
    'SELECT asked, reading, focal_length_px AS focalLengthPx, feature FROM surface WHERE hit_id = $hitId',
    { hitId },
  )
  if (!row) return null
  const { asked, reading, focalLengthPx, feature } = row
  const place = feature === null ? null : JSON.parse(feature)
  return { asked, reading: JSON.parse(reading), focalLengthPx, feature: place }
}

/** What the bench needs of a reading from the surface beside its figure. */
export function surfaceFacts(db: Database, hitId: string): BenchHit['surface'] {
  const surface = surfaceOfHit(db, hitId)
  return surface && { focalLengthPx: surface.focalLengthPx, feature: surface.feature }
}
