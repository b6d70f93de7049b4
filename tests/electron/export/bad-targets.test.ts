import { execFileSync } from 'node:child_process'
import { chmodSync, mkdirSync, readFileSync, statSync, writeFileSync } from 'node:fs'
import { basename, dirname, join } from 'node:path'
import { describe, expect, it } from 'vitest'
import { previewExport, writeExport } from '../../../electron/export/export.ts'
import { asPlainUserWhile } from '../store/plain-user.ts'
import { rawDatabase } from '../store/raw-database.ts'
import { fillUp, smallDisk } from '../store/small-disk.ts'
import { rejectedBy, temporaryFolder, temporaryWorkspace } from '../store/temporary.ts'
import { fillWorkspace, giveHits } from './filled-workspace.ts'

const header =
  'paddle,set_up,mean_rpm,band_low_rpm,band_high_rpm,band_level,hits,flag,ceiling_limit,settled_reason,capture_fps,method_version,date,evidence'

function filled() {
  const { workspace, file } = temporaryWorkspace()
  fillWorkspace(workspace)
  return { workspace, file }
}

describe('a target that cannot be is refused with its own word and stays as it was', () => {
  const text = (contents: string) => (path: string) => writeFileSync(path, contents)
  it.each<[string, string, (path: string) => void, string]>([
    ['a text file as a database', 'a.sqlite', text('not a database\n'.repeat(99)), 'target-not-database'],
    ['a short text file as a database', 'a.db', text('x'), 'target-not-database'],
    ['a name that says nothing', 'ratings.txt', () => {}, 'target-unknown'],
    ['a name without an ending', 'ratings', () => {}, 'target-unknown'],
    ['a folder', 'a.sqlite', path => mkdirSync(path), 'target-unlike'],
    ['a pipe', 'a.csv', path => execFileSync('mkfifo', [path]), 'target-unlike'],
    ['a place in no folder', 'none/a.csv', () => {}, 'target-no-folder'],
    ['another table of the person’s', 'a.csv', text('name,price\nHeron,99\n'), 'target-unlike'],
    ['a sheet with a column twice', 'a.csv', text(`${header},hits\r\n`), 'target-unlike'],
    [
      'a sheet with a paddle twice',
      'a.csv',
      text(`${header}\r\nHeron 14,stock${',1'.repeat(12)}\r\nHeron 14,stock${',2'.repeat(12)}\r\n`),
      'target-unlike',
    ],
    ['a sheet with an open quote', 'a.csv', text(`${header}\r\n"Heron,stock\r\n`), 'target-unlike'],
    [
      'a sheet in another alphabet',
      'a.csv',
      path => writeFileSync(path, Buffer.from([0xff, 0xfe, 0x61, 0])),
      'target-unlike',
    ],
    ['a sheet with NULs', 'a.csv', text(`${header}\0`), 'target-unlike'],
    [
      'a database called a sheet',
      'a.csv',
      path => rawDatabase(path).run('CREATE TABLE a (x)').close(),
      'target-unlike',
    ],
  ])('%s', async (_case, name, make, code) => {
    const { workspace } = filled()
    const path = join(temporaryFolder(), name)
    make(path)
    const before = contentsOf(path)
    for (const attempt of [previewExport, writeExport])
      expect(await rejectedBy(() => attempt(workspace, path))).toMatchObject({
        code,
        hint: expect.any(String),
      })
    expect(contentsOf(path)).toEqual(before)
    expect(workspace.recentTargets()).toEqual([])
  })

  it('the open workspace itself, and any other workspace', async () => {
    const { workspace, file } = filled()
    const other = temporaryWorkspace()
    other.workspace.close()
    for (const path of [file, other.file]) {
      expect(await rejectedBy(() => writeExport(workspace, path))).toMatchObject({ code: 'target-unlike' })
    }
    expect(workspace.sessions()).toHaveLength(1)
  })

  it.each(['a.sqlite', 'a.csv'])('%s that this person cannot write', async name => {
    const { workspace } = filled()
    const path = join(temporaryFolder(), name)
    chmodSync(dirname(path), 0o777)
    await writeExport(workspace, path)
    const { setUps } = workspace.createPaddle({ name: 'Osprey', notes: '' })
    giveHits(workspace, [{ setUpId: setUps[0]!.id, rpm: 1800 }], '2026-06-01')
    const before = contentsOf(path)
    chmodSync(path, 0o444)
    const thrown = await asPlainUserWhile(() => rejectedBy(() => writeExport(workspace, path)))
    expect(thrown).toMatchObject({ code: 'target-read-only' })
    expect(
      (await asPlainUserWhile(() => previewExport(workspace, path))).lines.some(one => one.action === 'add'),
    ).toBe(true)
    expect(contentsOf(path)).toEqual(before)
  })

  it.each(['a.sqlite', 'a.csv'])('%s in a folder that this person cannot write', async name => {
    const { workspace } = filled()
    const folder = temporaryFolder()
    const path = join(folder, name)
    expect(await asPlainUserWhile(() => rejectedBy(() => writeExport(workspace, path)))).toMatchObject({
      code: 'target-read-only',
    })
    expect(contentsOf(path)).toBeNull()
  })

  it.each(['a.sqlite', 'a.csv'])('%s that this person cannot read', async name => {
    const { workspace } = filled()
    const path = join(temporaryFolder(), name)
    await writeExport(workspace, path)
    chmodSync(path, 0o000)
    expect(await asPlainUserWhile(() => rejectedBy(() => previewExport(workspace, path)))).toMatchObject({
      code: 'file-unreadable',
    })
  })

  it.for(['a.sqlite', 'a.csv'])(
    '%s on a full disk keeps what it had, and a new one leaves no trace',
    async (name, { skip }) => {
      const disk = smallDisk()
      if (!disk) return skip('only root on Linux can mount a small disk')
      const { workspace } = filled()
      const path = join(disk, name)
      await writeExport(workspace, path)
      const before = contentsOf(path)
      for (let i = 0; i < 40; i++) {
        const { setUps } = workspace.createPaddle({ name: `Kite ${i} ${'x'.repeat(150)}`, notes: '' })
        const reading = { flag: 'ambiguous' as const }
        const hit = { setUpId: setUps[0]!.id, rpm: 1800, reading, settled: 'a reason '.repeat(50) }
        giveHits(workspace, [hit], '2026-06-01', 100 + i)
      }
      fillUp(disk)
      const fresh = join(disk, `new ${basename(path)}`)
      for (const target of [path, fresh])
        expect(await rejectedBy(() => writeExport(workspace, target))).toMatchObject({ code: 'disk-full' })
      expect(contentsOf(path)).toEqual(before)
      expect(contentsOf(fresh)).toBeNull()
    },
  )
})

function contentsOf(path: string): Buffer | null | string {
  try {
    if (statSync(path).isFIFO()) return 'a pipe'
    return readFileSync(path)
  } catch (thrown) {
    return (thrown as NodeJS.ErrnoException).code === 'EISDIR' ? 'a folder' : null
  }
}
