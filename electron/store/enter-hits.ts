import type { HitMarks, SingleEdit } from '../../core/contract/bench.ts'
import type { Reading } from '../../core/contract/reading.ts'
import type { Database } from './database.ts'
import { writeEdit } from './hit-marks.ts'
import { insertHit } from './hits.ts'
import { writeReading } from './readings.ts'
import type { Workspace } from './workspace.ts'

/** A hit with all its marks and what was read from them, as it comes from elsewhere. */
export type EnteredHit = { clipId: string; setUpId: string; marks: HitMarks; reading: Reading }

/** Whole hits in one transaction. They have no steps that could be undone. */
export const enteringStore = (db: Database, stamp: () => string): Pick<Workspace, 'enterHits'> => ({
  enterHits: (hits, methodVersion) =>
    db.transaction(() => {
      const at = stamp()
      for (const { clipId, setUpId, marks, reading } of hits) {
        const hitId = insertHit(db, clipId, marks.window, at)
        for (const edit of editsOf(marks)) writeEdit(db, hitId, edit)
        db.run('UPDATE hit SET set_up_id = $setUpId WHERE id = $hitId', { hitId, setUpId })
        writeReading(db, hitId, { reading, methodVersion, at })
      }
    }),
})

const editsOf = ({ marks, outlines, sightings, sense, settled, verdict }: HitMarks): SingleEdit[] => [
  ...marks.map((mark): SingleEdit => ({ kind: 'put-mark', mark })),
  ...outlines.map((outline): SingleEdit => ({ kind: 'place-outline', outline })),
  ...sightings.map((sighting): SingleEdit => ({ kind: 'place-sighting', sighting })),
  { kind: 'set-sense', sense },
  { kind: 'settle', settled },
  { kind: 'decide', verdict },
]
