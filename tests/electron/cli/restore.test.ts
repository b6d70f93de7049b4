import { join } from 'node:path'
import { describe, expect, it } from 'vitest'
import { makeBackup } from '../../../electron/store/backups.ts'
import { openWorkspace } from '../../../electron/store/open-workspace.ts'
import { session } from '../../core/marking/sample-records.ts'
import { temporaryFolder, tickingClock } from '../store/temporary.ts'
import { said } from './stand-in-world.ts'

const open = (file: string) => openWorkspace(file, { now: tickingClock() })
const sessionsIn = (file: string) => {
  const workspace = open(file)
  const { length } = workspace.sessions()
  workspace.close()
  return length
}
/** A workspace with one session in its backup and two now. */
function workspaceFile(): string {
  const file = join(temporaryFolder(), 'club.sqlite')
  const workspace = open(file)
  workspace.createSession(session)
  makeBackup(file, new Date(Date.UTC(2026, 4, 1)))
  workspace.createSession(session)
  workspace.close()
  return file
}

describe('whorl restore', () => {
  it('lists the backups, and goes back to the latest, to a named one and to any file', async () => {
    const file = workspaceFile()
    const list = await said(['restore', '--workspace', file])
    expect(list).toMatchObject({ code: 0, err: '' })
    expect(list.out).toMatch(/^club 2026-05-01T00-00-00-000Z\.sqlite {2}0\.\d MB\n$/)
    const { schema, backups } = JSON.parse((await said(['restore', '--workspace', file, '--json'])).out)
    expect(schema).toBe('whorl.backups/1')
    for (const wanted of ['latest', backups[0].name, backups[0].path]) {
      const { code, out } = await said(['restore', wanted, '--workspace', file, '--json'])
      expect(code).toBe(0)
      const restored = JSON.parse(out)
      expect(restored).toMatchObject({ schema: 'whorl.restore/1', from: backups[0].path, setAside: null })
      expect(sessionsIn(file)).toBe(1)
      expect(sessionsIn(restored.before)).toBe(2)
      // What was there is a backup now, the latest.
      await said(['restore', 'latest', '--workspace', file])
      expect(sessionsIn(file)).toBe(2)
    }
  })

  it('says what to do where there is no backup, or no such file', async () => {
    const file = join(temporaryFolder(), 'club.sqlite')
    const none = await said(['restore', '--workspace', file])
    expect(none).toMatchObject({ code: 0, out: expect.stringContaining('There is no backup in') })
    expect((await said(['restore', 'latest', '--workspace', file])).code).toBe(2)
    const missing = await said(['restore', '/nowhere.sqlite', '--workspace', file])
    expect(missing).toMatchObject({ code: 1, err: expect.stringContaining('no file at /nowhere.sqlite.') })
  })
})
