import type { ClipHolds, DayState, DayTurn, TestDay, TurnClip } from '../../core/contract/test-day.ts'
import { nextTurn } from '../../core/planning/day-progress.ts'
import { paddleWordsOf } from '../../core/planning/paddle-words.ts'
import { testDayOf } from '../../core/planning/test-day.ts'
import type { Database } from './database.ts'
import { found } from './missing.ts'
import { setUpNamed } from './paddles.ts'
import type { Workspace } from './workspace.ts'

type DayCalls = 'planDay' | 'testDay' | 'placeClip' | 'leaveTurnOut'
type DayRow = { asked: string; clipHolds: ClipHolds }
type TurnRow = Omit<DayTurn, 'clips' | 'isReference' | 'freshBall' | 'leftOut'> &
  Record<'isReference' | 'freshBall' | 'leftOut', number>
type ClipRow = Omit<TurnClip, 'trouble'> & {
  place: number | null
  problem: string | null
  refusing: string | null
}

/** A clip whose capture rate is not known yet is no clip to film again: the session or a person says it. */
const clipsOfDay = `
  SELECT turn_clip.place AS place, clip.id AS clipId, clip.name AS name, clip.problem AS problem,
    (SELECT count(*) FROM hit WHERE clip_id = clip.id) AS hits,
    (SELECT value FROM json_each(clip.probe, '$.warnings')
     WHERE value ->> '$.effect' = 'refuse' AND value ->> '$.code' <> 'capture-rate-unknown' LIMIT 1) AS refusing
  FROM clip LEFT JOIN turn_clip ON turn_clip.clip_id = clip.id
  WHERE clip.session_id = $sessionId ORDER BY clip.added_at, clip.rowid`
const turnsOfDay = `
  SELECT place, block, set_up_id AS setUpId, paddle.name AS paddle, set_up.name AS setUp, hits,
    is_reference AS isReference, fresh_ball AS freshBall, left_out AS leftOut
  FROM turn JOIN set_up ON set_up.id = turn.set_up_id JOIN paddle ON paddle.id = set_up.paddle_id
  WHERE session_id = $sessionId ORDER BY place`

/** The day of filming as it was planned, and the clips on its turns. */
export const testDayStore = (db: Database, stamp: () => string): Pick<Workspace, DayCalls> => ({
  planDay: (sessionId, day, clipHolds) =>
    db.transaction(() => {
      db.run('INSERT INTO test_day VALUES ($sessionId, $asked, $clipHolds)', {
        sessionId,
        asked: JSON.stringify(day),
        clipHolds,
      })
      turnsFor(db, day, stamp()).forEach((turn, place) => {
        db.run(
          `INSERT INTO turn VALUES
             ($sessionId, $place, $block, $setUpId, $hits, $isReference, $freshBall, 0)`,
          { sessionId, place, ...turn },
        )
      })
    }),
  testDay: sessionId => dayState(db, sessionId),
  placeClip: (clipId, place) =>
    db.transaction(() => {
      const { sessionId } = found(
        db.get<{ sessionId: string }>('SELECT session_id AS sessionId FROM clip WHERE id = $clipId', {
          clipId,
        }),
        'clip',
        clipId,
      )
      const before = setUpOfClip(db, clipId)
      db.run('DELETE FROM turn_clip WHERE clip_id = $clipId', { clipId })
      if (place !== null) {
        turnAt(db, sessionId, place)
        db.run('INSERT INTO turn_clip VALUES ($clipId, $sessionId, $place)', { clipId, sessionId, place })
      }
      // A hit that a person gave to another paddle stays there.
      db.run('UPDATE hit SET set_up_id = $after WHERE clip_id = $clipId AND set_up_id IS $before', {
        clipId,
        before,
        after: setUpOfClip(db, clipId),
      })
      return found(dayState(db, sessionId) ?? undefined, 'test day of session', sessionId)
    }),
  leaveTurnOut: (sessionId, place, leftOut) =>
    db.transaction(() => {
      turnAt(db, sessionId, place)
      db.run('UPDATE turn SET left_out = $leftOut WHERE session_id = $sessionId AND place = $place', {
        sessionId,
        place,
        leftOut: Number(leftOut),
      })
      return found(dayState(db, sessionId) ?? undefined, 'test day of session', sessionId)
    }),
})

/** Where the session has a test day, a clip that has just come in goes to the next turn; in the caller's transaction. */
export function placeOnNextTurn(db: Database, sessionId: string, clipId: string): void {
  const place = dayState(db, sessionId)?.next
  if (place != null)
    db.run('INSERT INTO turn_clip VALUES ($clipId, $sessionId, $place)', { clipId, sessionId, place })
}

const turnsFor = (db: Database, day: TestDay, at: string) =>
  testDayOf(day).flatMap(({ turns }, block) =>
    turns.map(({ paddle, hits, isReference, freshBall }) => ({
      block,
      setUpId: setUpNamed(db, paddleWordsOf(paddle), at),
      hits,
      isReference: Number(isReference),
      freshBall: Number(freshBall),
    })),
  )

const turnAt = (db: Database, sessionId: string, place: number) =>
  found(
    db.get('SELECT 1 FROM turn WHERE session_id = $sessionId AND place = $place', { sessionId, place }),
    'turn',
    String(place),
  )

/** Whose turn a clip is on: hits that are made on it are that paddle's. */
export const setUpOfClip = (db: Database, clipId: string): string | null =>
  db.get<{ setUpId: string }>(
    `SELECT turn.set_up_id AS setUpId FROM turn_clip JOIN turn USING (session_id, place)
     WHERE clip_id = $clipId`,
    { clipId },
  )?.setUpId ?? null

function dayState(db: Database, sessionId: string): DayState | null {
  const day = db.get<DayRow>(
    'SELECT asked, clip_holds AS clipHolds FROM test_day WHERE session_id = $sessionId',
    { sessionId },
  )
  if (!day) return null
  const clips = db.all<ClipRow>(clipsOfDay, { sessionId })
  const onTurn = (place: number | null) => clips.filter(clip => clip.place === place).map(turnClipOf)
  const turns = db.all<TurnRow>(turnsOfDay, { sessionId }).map(
    (row): DayTurn => ({
      ...row,
      isReference: row.isReference === 1,
      freshBall: row.freshBall === 1,
      leftOut: row.leftOut === 1,
      clips: onTurn(row.place),
    }),
  )
  const next = nextTurn(turns, day.clipHolds)
  return {
    clipHolds: day.clipHolds,
    seed: (JSON.parse(day.asked) as TestDay).seed,
    turns,
    next: next < 0 ? null : next,
    unplaced: onTurn(null),
  }
}

function turnClipOf({ clipId, name, hits, problem, refusing }: ClipRow): TurnClip {
  const finding = refusing === null ? null : JSON.parse(refusing)
  const trouble =
    problem === null ? finding && `${finding.message} ${finding.todo}` : JSON.parse(problem).message
  return { clipId, name, hits, trouble }
}
