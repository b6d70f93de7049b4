import { randomUUID } from 'node:crypto'
import { basename } from 'node:path'
import { WhorlError } from '../../core/contract/problem.ts'
import { type ClipRow, clipQuery, doublesOf, recordOf, valuesOf } from './clip-record.ts'
import type { Database } from './database.ts'
import { found } from './missing.ts'
import { placeOnNextTurn } from './test-days.ts'
import type { FoundClip, Workspace } from './workspace.ts'

type ClipCalls =
  | 'clips'
  | 'clip'
  | 'addClip'
  | 'setProbe'
  | 'locate'
  | 'findClipsBySha256'
  | 'timestampsSeconds'
  | 'setCaptureFps'
  | 'removeClip'

/** The video files of the sessions: known by their contents, found by their path. */
export function clipStore(db: Database, stamp: () => string): Pick<Workspace, ClipCalls> {
  const row = (id: string) => found(db.get<ClipRow>(`${clipQuery} WHERE id = $id`, { id }), 'clip', id)
  const clip = (id: string) => recordOf(row(id))

  /** A file that cannot be used now keeps what was known of it: its contents are still how it is found. */
  const write = (id: string, clipFound: FoundClip) => {
    const { name, path, problem, ...facts } = valuesOf(clipFound)
    db.run('UPDATE clip SET name = $name, path = $path, problem = $problem WHERE id = $id', {
      id,
      name: name!,
      path: path!,
      problem: problem!,
    })
    if (!clipFound.probe) return
    const changed = db.run(
      `UPDATE clip SET sha256 = $sha256, probe = $probe, timestamps_seconds = $timestamps
       WHERE id = $id AND (sha256, probe, timestamps_seconds) IS NOT ($sha256, $probe, $timestamps)`,
      { id, ...facts },
    )
    if (changed > 0) outdate(id)
  }
  const outdate = (clipId: string) =>
    db.run('UPDATE hit SET revision = revision + 1 WHERE clip_id = $clipId', { clipId })

  /** The clip of this session that the found file is: by contents, else (a file without a probe) by path. */
  const sameIn = (sessionId: string, clipFound: FoundClip) =>
    db.get<{ id: string }>(
      `SELECT id FROM clip WHERE session_id = $sessionId
         AND (sha256 = $sha256 OR (path = $path AND (sha256 IS NULL OR $sha256 IS NULL)))
       ORDER BY sha256 IS NULL`,
      { sessionId, sha256: clipFound.probe?.sha256 ?? null, path: clipFound.path },
    )

  return {
    clip,
    clips: sessionId =>
      db
        .all<ClipRow>(`${clipQuery} WHERE session_id = $sessionId ORDER BY name, added_at, rowid`, {
          sessionId,
        })
        .map(recordOf),
    addClip: (sessionId, clipFound) =>
      db.transaction(() => {
        found(db.get('SELECT 1 FROM session WHERE id = $sessionId', { sessionId }), 'session', sessionId)
        const same = sameIn(sessionId, clipFound)
        if (same) write(same.id, clipFound)
        const id = same?.id ?? randomUUID()
        if (!same) {
          db.run(
            `INSERT INTO clip
               (id, session_id, name, path, sha256, probe, problem, timestamps_seconds, added_at)
             VALUES ($id, $sessionId, $name, $path, $sha256, $probe, $problem, $timestamps, $at)`,
            { id, sessionId, at: stamp(), ...valuesOf(clipFound) },
          )
          placeOnNextTurn(db, sessionId, id)
        }
        return clip(id)
      }),
    setProbe: (id, clipFound) =>
      db.transaction(() => {
        const before = row(id)
        const other = before.sha256 !== null && clipFound.probe && clipFound.probe.sha256 !== before.sha256
        if (other && before.hits > 0)
          throw new WhorlError('clip-not-same', { path: clipFound.path, name: before.name })
        write(id, clipFound)
        return clip(id)
      }),
    locate: (id, file) =>
      db.transaction(() => {
        const before = row(id)
        if (before.sha256 !== null && before.sha256 !== file.sha256)
          throw new WhorlError('clip-not-same', { path: file.path, name: before.name })
        db.run('UPDATE clip SET path = $path, name = $name, problem = NULL WHERE id = $id', {
          id,
          path: file.path,
          name: basename(file.path),
        })
        return clip(id)
      }),
    findClipsBySha256: sha256 =>
      db
        .all<ClipRow>(`${clipQuery} WHERE sha256 = $sha256 ORDER BY added_at, rowid`, { sha256 })
        .map(recordOf),
    timestampsSeconds: id =>
      doublesOf(
        found(
          db.get<{ bytes: Uint8Array | null }>(
            'SELECT timestamps_seconds AS bytes FROM clip WHERE id = $id',
            {
              id,
            },
          ),
          'clip',
          id,
        ).bytes,
      ),
    setCaptureFps: (id, captureFps) =>
      db.transaction(() => {
        if (row(id).capture_fps_said !== captureFps) {
          db.run('UPDATE clip SET capture_fps_said = $captureFps WHERE id = $id', { id, captureFps })
          outdate(id)
        }
        return clip(id)
      }),
    removeClip: id => {
      found(db.run('DELETE FROM clip WHERE id = $id', { id }) || undefined, 'clip', id)
    },
  }
}
