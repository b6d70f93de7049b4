import { rmSync, writeFileSync } from 'node:fs'
import { join } from 'node:path'
import { describe, expect, it, onTestFinished } from 'vitest'
import { WhorlError } from '../../../core/contract/problem.ts'
import { Database } from '../../../electron/store/database.ts'
import { openWorkspace } from '../../../electron/store/open-workspace.ts'
import type { Workspace } from '../../../electron/store/workspace.ts'
import { rawDatabase } from './raw-database.ts'
import { smallDisk } from './small-disk.ts'
import { temporaryFolder, thrownBy, tickingClock, withOneHit } from './temporary.ts'

const note = (letter: string) => letter.repeat(2000)
const frames = (workspace: Workspace, hitId: string) =>
  workspace.hit(hitId).marks.outlines.map(outline => outline.frame)

/** Clicks until the disk is full; answers how many clicks were saved. */
function clickUntilFull(workspace: Workspace, hitId: string): { saved: number; thrown: unknown } {
  for (let frame = 0; frame < 100_000; frame++) {
    const outline = { frame, xPx: 1 / 3, yPx: 1 / 7, radiusPx: 20 }
    try {
      workspace.saveEdit(hitId, { kind: 'place-outline', outline })
    } catch (thrown) {
      return { saved: frame, thrown }
    }
  }
  throw new Error('the disk never filled up')
}

describe('a full disk', () => {
  it('refuses the step in flight and keeps every step before it', () => {
    const db = new Database(join(temporaryFolder(), 'a.sqlite'), {
      readOnly: false,
      onTrouble: trouble => new Error(`trouble: ${trouble}`),
    })
    onTestFinished(() => db.close())
    db.exec('CREATE TABLE a (x); CREATE TABLE b (x)')
    const roomBefore = 'PRAGMA max_page_count = 40'
    db.exec(roomBefore)
    let saved = 0
    const step = () =>
      db.transaction(() => {
        db.run('INSERT INTO a VALUES ($x)', { x: note('a') })
        db.run('INSERT INTO b VALUES ($x)', { x: note('b') })
      })
    const refused = thrownBy(() => {
      for (; saved < 1000; saved++) step()
    })
    expect(refused).toMatchObject({ message: 'trouble: full' })
    expect(saved).toBeGreaterThan(5)
    const count = (table: string) => db.get<{ n: number }>(`SELECT count(*) AS n FROM ${table}`)!.n
    expect([count('a'), count('b')]).toEqual([saved, saved])
    db.exec('PRAGMA max_page_count = 4000')
    step()
    expect([count('a'), count('b')]).toEqual([saved + 1, saved + 1])
  })

  it('that is really one has its own word, and the work goes on where there is room again', ({ skip }) => {
    const disk = smallDisk()
    if (!disk) return skip('only root on Linux can mount a small disk')
    const file = join(disk, 'w.sqlite')
    const filler = join(disk, 'filler')
    const workspace = openWorkspace(file, { now: tickingClock() })
    onTestFinished(() => workspace.close())
    const { hitId } = withOneHit(workspace)
    writeFileSync(filler, Buffer.alloc(60_000))
    const { saved, thrown } = clickUntilFull(workspace, hitId)
    expect(thrown).toBeInstanceOf(WhorlError)
    expect(thrown).toMatchObject({ code: 'disk-full', facts: { path: file } })
    expect(saved).toBeGreaterThan(10)
    expect(frames(workspace, hitId)).toHaveLength(saved)
    rmSync(filler)
    expect(workspace.undo(hitId).marks.outlines).toHaveLength(saved - 1)
    expect(workspace.redo(hitId).marks.outlines).toHaveLength(saved)
    workspace.close()
    expect(rawDatabase(file).all('PRAGMA integrity_check')).toEqual([{ integrity_check: 'ok' }])
  })
})
