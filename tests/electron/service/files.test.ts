import { mkdirSync, mkdtempSync, realpathSync, rmSync, symlinkSync, writeFileSync } from 'node:fs'
import { homedir, tmpdir } from 'node:os'
import { dirname, join } from 'node:path'
import { afterEach, beforeEach, describe, expect, it } from 'vitest'
import { fileCalls } from '../../../electron/service/files.ts'
import { pathInside } from '../../../electron/service/folders.ts'
import type { Parts } from '../../../electron/service/parts.ts'

let folder: string
const list = (folders: string[] | null, asked: string | null) => {
  const calls = fileCalls({ folders, pick: null } as Parts)
  return calls['files.list']({ folder: asked }, { signal: new AbortController().signal, progress: () => {} })
}

beforeEach(() => {
  folder = realpathSync(mkdtempSync(join(tmpdir(), 'whorl-files-')))
  mkdirSync(join(folder, 'named', 'inner'), { recursive: true })
  mkdirSync(join(folder, 'other'))
  mkdirSync(join(folder, 'named-too'))
})
afterEach(() => rmSync(folder, { recursive: true }))

const named = () => join(folder, 'named')
const put = (name: string, bytes = 1) => writeFileSync(join(folder, 'named', name), Buffer.alloc(bytes))

describe('the list of a folder', () => {
  it('holds folders first, then clip-like files, as a person sorts them', async () => {
    for (const name of ['b.MP4', 'a10.mov', 'a2.mov', 'notes.txt', '.hidden.mp4', 'none', 'x.sqlite'])
      put(name, 7)
    const { entries, path } = await list([named()], named())
    expect(path).toBe(named())
    expect(entries.map(({ name, kind, bytes }) => [name, kind, bytes])).toEqual([
      ['inner', 'folder', 0],
      ['a2.mov', 'clip', 7],
      ['a10.mov', 'clip', 7],
      ['b.MP4', 'clip', 7],
    ])
  })

  it('leaves out what leads nowhere, and goes on', async () => {
    put('a.mp4')
    symlinkSync(join(folder, 'gone'), join(named(), 'broken.mp4'))
    expect((await list([named()], named())).entries.map(entry => entry.name)).toEqual(['inner', 'a.mp4'])
  })

  it('starts at the named folder, or shows all where there are several', async () => {
    expect((await list([named()], null)).path).toBe(named())
    const several = await list([named(), join(folder, 'other')], null)
    expect(several.entries.map(entry => entry.path)).toEqual([named(), join(folder, 'other')])
    expect((await list(null, null)).path).toBe(homedir())
  })

  it('shows the way up as far as it may be seen', async () => {
    expect((await list([named()], join(named(), 'inner'))).parent).toBe(named())
    expect((await list([named()], named())).parent).toBeNull()
    expect((await list(null, named())).parent).toBe(folder)
    expect((await list(null, '/')).parent).toBeNull()
  })

  it('says when there is no such folder, or a file', async () => {
    put('a.mp4')
    await expect(list(null, join(named(), 'none'))).rejects.toMatchObject({ code: 'file-not-found' })
    await expect(list(null, join(named(), 'a.mp4'))).rejects.toMatchObject({ code: 'file-unreadable' })
  })
})

describe('a path outside the named folders', () => {
  it.each<[string, () => string]>([
    ['the folder above', () => folder],
    ['a folder beside it', () => join(folder, 'other')],
    ['one whose name begins alike', () => join(folder, 'named-too')],
    ['dots that lead out', () => `${named()}/inner/../../other`],
    ['a file that is not there', () => join(folder, 'other', 'none.mp4')],
    ['the root', () => '/'],
    ['the secrets of the system', () => '/etc/passwd'],
  ])('is refused: %s', async (_, path) => {
    expect(() => pathInside([named()], path())).toThrow(expect.objectContaining({ code: 'folder-not-named' }))
    await expect(list([named()], path())).rejects.toMatchObject({ code: 'folder-not-named' })
  })

  it('is refused through a link that leads out', async () => {
    symlinkSync(join(folder, 'other'), join(named(), 'link'))
    await expect(list([named()], join(named(), 'link'))).rejects.toMatchObject({ code: 'folder-not-named' })
  })

  it('is let in through a link that stays inside', () => {
    symlinkSync(join(named(), 'inner'), join(named(), 'link'))
    expect(pathInside([named()], join(named(), 'link'))).toBe(join(named(), 'link'))
  })

  it('may be any where the person’s own rights are the limit', () => {
    expect(pathInside(null, `${folder}/named/..`)).toBe(folder)
    expect(dirname(pathInside(null, '/etc/passwd'))).toBe('/etc')
  })
})
