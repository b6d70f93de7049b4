import type { PlacedOutline } from '../../core/contract/bench.ts'
import type { Database } from './database.ts'
import { readHitMarks, writeEdit } from './hit-marks.ts'
import { hitRows } from './hit-rows.ts'
import { insertHit } from './hits.ts'
import { writeReading } from './readings.ts'
import { surfaceOfHit } from './surface-facts.ts'
import type { SurfaceOfHit, Workspace } from './workspace.ts'

/** Readings from the ball's surface: of hits, with what they were made from, and of whole clips. */
export function surfaceStore(
  db: Database,
  stamp: () => string,
): Pick<Workspace, 'surface' | 'saveSurface' | 'addFoundHits' | 'flightsRead' | 'keepFlights'> {
  const write = (hitId: string, surface: SurfaceOfHit, outlines: readonly PlacedOutline[]) => {
    db.run('DELETE FROM outline WHERE hit_id = $hitId AND found = 1', { hitId })
    const byHand = new Set(readHitMarks(db, hitId).outlines.map(({ frame }) => frame))
    for (const outline of outlines.filter(({ frame }) => !byHand.has(frame)))
      writeEdit(db, hitId, { kind: 'place-outline', outline: { ...outline, found: true } })
    db.run('INSERT OR REPLACE INTO surface VALUES ($hitId, $asked, $reading, $focalLengthPx, $feature)', {
      hitId,
      asked: surface.asked,
      reading: JSON.stringify(surface.reading),
      focalLengthPx: surface.focalLengthPx,
      feature: surface.feature && JSON.stringify(surface.feature),
    })
  }
  return {
    surface: hitId => surfaceOfHit(db, hitId),
    saveSurface: (hitId, surface, outlines) => db.transaction(() => write(hitId, surface, outlines)),
    addFoundHits: (clipId, flights) =>
      db.transaction(() => {
        const there = hitRows(db, { clipId }).map(({ window }) => window)
        const fresh = flights.filter(({ window }) =>
          there.every(hit => hit.toFrame < window.fromFrame || hit.fromFrame > window.toFrame),
        )
        return fresh.map(({ window, outlines, surface, methodVersion }) => {
          const hitId = insertHit(db, clipId, window, stamp())
          writeEdit(db, hitId, { kind: 'read-from', source: 'surface' })
          write(hitId, surface, outlines)
          writeReading(db, hitId, { reading: surface.reading, methodVersion, at: stamp() })
          return hitId
        })
      }),
    flightsRead: (sha256, asked) => {
      const row = db.get<{ flights: string }>(
        'SELECT flights FROM flights_read WHERE sha256 = $sha256 AND asked = $asked',
        { sha256, asked },
      )
      return row ? JSON.parse(row.flights) : null
    },
    keepFlights: (sha256, asked, flights) => {
      db.run('INSERT OR REPLACE INTO flights_read VALUES ($sha256, $asked, $flights, $at)', {
        sha256,
        asked,
        flights: JSON.stringify(flights),
        at: stamp(),
      })
    },
  }
}
