import type { BenchHit } from '../../core/contract/workspace.ts'
import { captureFpsOf } from '../../core/marking/capture-fps-of.ts'
import { marksDocumentOf } from '../../core/marking/marks-document-of.ts'
import { methodVersion } from '../../core/spin/method-version.ts'
import { readMarks } from '../../core/spin/read-marks.ts'
import { settledReading } from '../../core/spin/settled-reading.ts'
import { frameTimes } from '../../core/timing/frame-times.ts'
import type { HitFilter, Workspace } from '../store/workspace.ts'
import { askedOf, wordsOf } from './read-once.ts'

/** Keeps the stored readings in step with the stored marks. The page shows the same figures from the same code. */
export type Reader = {
  /** Reads one hit from its marks as they are stored, and stores the reading. */
  read(hitId: string): BenchHit
  /** Reads every hit whose marks, camera or clip changed since its reading. */
  readStale(filter: HitFilter): void
}

/** @param later asks for a new reading from the surface, which takes pictures and so cannot be had at once. */
export function createReader(workspace: Workspace, later: (hitId: string) => void = () => {}): Reader {
  function read(hitId: string): BenchHit {
    const bench = workspace.hit(hitId)
    const { sessionId, probe } = workspace.clip(bench.row.clipId)
    if (probe === null) return bench
    const session = workspace.session(sessionId)
    if (bench.marks.readFrom === 'surface') {
      const kept = workspace.surface(hitId)
      if (kept?.asked === wordsOf(askedOf(probe, session, bench.marks)))
        return workspace.saveReading(hitId, settledReading(kept.reading, bench.marks.settled), methodVersion)
      later(hitId)
      return bench
    }
    const captureFps = captureFpsOf(probe, session.camera)
    const timestampsSeconds = workspace.timestampsSeconds(bench.row.clipId)
    const { playbackFps } = probe
    const frameTimesSeconds = frameTimes({ timestampsSeconds, playbackFps, captureFps, trusted: true })
    const { marks } = marksDocumentOf({
      hit: bench.marks,
      clip: probe,
      frameTimesSeconds,
      session,
      captureFps,
    })
    return marks === null ? bench : workspace.saveReading(hitId, readMarks(marks), methodVersion)
  }
  return {
    read,
    readStale: filter => {
      for (const hitId of workspace.staleHits(filter)) read(hitId)
    },
  }
}
