import { chmodSync, readdirSync, readFileSync, statSync, writeFileSync } from 'node:fs'
import { dirname, join } from 'node:path'
import { describe, expect, it } from 'vitest'
import { applicationId, migrations } from '../../../electron/store/migrations.ts'
import { openWorkspace } from '../../../electron/store/open-workspace.ts'
import { session } from '../../core/marking/sample-records.ts'
import { asPlainUser } from './plain-user.ts'
import { rawDatabase } from './raw-database.ts'
import { temporaryFolder, temporaryWorkspace, thrownBy, tickingClock } from './temporary.ts'

const open = (file: string) => openWorkspace(file, { now: tickingClock() })
const codeOf = (work: () => unknown) => (thrownBy(work) as { code?: string }).code

describe('opening a workspace', () => {
  it('makes the file and its folder, marked as ours in the first 100 bytes, empty, in order', () => {
    const file = join(temporaryFolder(), 'a folder', 'täglich 🎾.sqlite')
    const workspace = open(file)
    expect(workspace.isEmpty()).toBe(true)
    workspace.close()
    expect(readFileSync(file).readUInt32BE(68)).toBe(applicationId)
    const db = rawDatabase(file)
    expect(db.all('PRAGMA integrity_check')).toEqual([{ integrity_check: 'ok' }])
    expect(db.all('PRAGMA user_version')).toEqual([{ user_version: migrations.length }])
  })

  it('finds everything again after a restart', () => {
    const temporary = temporaryWorkspace()
    const made = temporary.workspace.createSession(session)
    expect(temporary.reopen().sessions()).toEqual([made])
    expect(temporary.workspace.isEmpty()).toBe(false)
  })

  it('leaves one whole file when it is closed', () => {
    const { file, workspace } = temporaryWorkspace()
    workspace.createSession(session)
    expect(readdirSync(dirname(file)).length).toBeGreaterThan(1)
    workspace.close()
    expect(readdirSync(dirname(file))).toEqual(['workspace.sqlite'])
    workspace.close()
  })

  it('takes an empty file for a new workspace: a kill right after its making leaves one', () => {
    const file = join(temporaryFolder(), 'w.sqlite')
    writeFileSync(file, '')
    const workspace = open(file)
    expect(workspace.isEmpty()).toBe(true)
    workspace.close()
  })

  it('lets two windows work on one file', () => {
    const one = temporaryWorkspace()
    const two = temporaryWorkspace(one.file)
    const made = one.workspace.createSession(session)
    expect(two.workspace.sessions()).toEqual([made])
    two.workspace.createSession(session)
    expect(one.workspace.sessions()).toHaveLength(2)
  })
})

describe('a file that is not ours is refused and stays as it was', () => {
  it.each<[string, (file: string) => void]>([
    ['a text file', file => writeFileSync(file, 'spin notes\n'.repeat(400))],
    ['a short file', file => writeFileSync(file, 'x')],
    ['another program’s SQLite file', file => rawDatabase(file).run('CREATE TABLE session (id)').close()],
    [
      'a SQLite file with another mark',
      file => rawDatabase(file).run('PRAGMA application_id = 77; CREATE TABLE t (a)').close(),
    ],
  ])('%s', (_case, make) => {
    const folder = temporaryFolder()
    const file = join(folder, 'a file')
    make(file)
    const [bytes, { mtimeMs }] = [readFileSync(file), statSync(file)]
    const beside = readdirSync(folder)
    expect(codeOf(() => open(file))).toBe('workspace-not-ours')
    expect(readFileSync(file).equals(bytes)).toBe(true)
    expect(statSync(file).mtimeMs).toBe(mtimeMs)
    expect(readdirSync(folder)).toEqual(beside)
  })

  it('a folder', () => {
    expect(codeOf(() => open(temporaryFolder()))).toBe('workspace-not-ours')
  })

  it('a workspace of a later Whorl, named with both forms', () => {
    const { file, workspace } = temporaryWorkspace()
    workspace.close()
    rawDatabase(file)
      .run(`PRAGMA user_version = ${migrations.length + 3}`)
      .close()
    expect(thrownBy(() => open(file))).toMatchObject({
      code: 'workspace-newer',
      facts: { path: file, found: migrations.length + 3, known: migrations.length },
    })
  })

  it('a workspace with a broken page', () => {
    const { file, workspace } = temporaryWorkspace()
    workspace.close()
    const bytes = readFileSync(file)
    bytes.fill(0x5a, 100, 4096)
    writeFileSync(file, bytes)
    expect(codeOf(() => open(file))).toBe('workspace-damaged')
  })
})

describe('trouble with the file has its own word', () => {
  it('locked by another program', () => {
    const { file, workspace } = temporaryWorkspace()
    workspace.close()
    const other = rawDatabase(file).run('PRAGMA locking_mode = EXCLUSIVE; BEGIN EXCLUSIVE; COMMIT')
    expect(codeOf(() => open(file))).toBe('workspace-locked')
    other.close()
    open(file).close()
  })

  it('locked while working: the step is refused, the work before it stands', () => {
    const { file, workspace } = temporaryWorkspace()
    workspace.createSession(session)
    const other = rawDatabase(file).run('BEGIN IMMEDIATE')
    expect(codeOf(() => workspace.createSession(session))).toBe('workspace-locked')
    other.run('COMMIT')
    expect(workspace.sessions()).toHaveLength(1)
    workspace.createSession(session)
    expect(workspace.sessions()).toHaveLength(2)
  })

  it.each(['file', 'folder'] as const)('in a %s that this person cannot write', what => {
    const folder = temporaryFolder()
    const file = join(folder, 'w.sqlite')
    const workspace = open(file)
    const made = workspace.createSession(session)
    workspace.close()
    chmodSync(folder, what === 'file' ? 0o777 : 0o555)
    chmodSync(file, what === 'file' ? 0o444 : 0o666)
    expect(asPlainUser(() => codeOf(() => open(file)))).toBe('workspace-read-only')
    chmodSync(folder, 0o755)
    chmodSync(file, 0o644)
    const again = open(file)
    expect(again.sessions()).toEqual([made])
    again.close()
  })

  it('in a folder that cannot be made', () => {
    const folder = temporaryFolder()
    writeFileSync(join(folder, 'file'), '')
    expect(codeOf(() => open(join(folder, 'file', 'w.sqlite')))).toBe('workspace-read-only')
  })

  it('unreadable', () => {
    const file = join(temporaryFolder(), 'w.sqlite')
    open(file).close()
    chmodSync(file, 0)
    expect(asPlainUser(() => codeOf(() => open(file)))).toBe('file-unreadable')
  })
})
