import { mkdirSync, mkdtempSync, readdirSync, readFileSync, rmSync } from 'node:fs'
import { tmpdir } from 'node:os'
import { join } from 'node:path'
import { afterAll, beforeAll, describe, expect, it } from 'vitest'
import { type BatchOrder, usualClip, usualLook, usualSize } from '../../../core/contract/publish.ts'
import type { AppHost } from '../../../electron/service/app-host.ts'
import { openHost } from '../../../electron/service/open-host.ts'
import { openWorkspace } from '../../../electron/store/open-workspace.ts'
import { said } from '../cli/stand-in-world.ts'
import { giveHits } from '../export/filled-workspace.ts'

const folder = mkdtempSync(join(tmpdir(), 'whorl-many-'))
const workspaceFile = join(folder, 'workspace.sqlite')
// Two names that come out as one file name, and a season before.
const names = ['Heron 14', 'Heron/14', 'Avocet 16']
const days = ['2026-05-10', '2026-05-11', '2025-09-02']
let host: AppHost
let sessionId: string
const context = (signal = new AbortController().signal, progress = () => {}) => ({ signal, progress })

beforeAll(async () => {
  const workspace = openWorkspace(workspaceFile, { now: () => new Date(0) })
  for (const [i, name] of names.entries()) {
    const setUpId = workspace.createPaddle({ name, notes: '' }).setUps[0]!.id
    const rates = [2310, 2290, 2335].map(rpm => ({ setUpId, rpm: rpm - 90 * i }))
    giveHits(workspace, rates, days[i]!)
  }
  workspace.close()
  host = openHost({ workspaceFile, shell: 'desktop', folders: null, pick: null })
  sessionId = (await host.service['sessions.list']({}, context())).find(({ day }) => day === days[1])!.id
})
afterAll(async () => {
  await host.close()
  rmSync(folder, { recursive: true })
})

const dots: BatchOrder['make'] = {
  what: 'picture',
  order: { kind: 'dots', look: usualLook, size: usualSize, format: 'svg' },
}
function place(name: string): string {
  const path = join(folder, name)
  mkdirSync(path)
  return path
}

describe('many paddles at once', () => {
  it.each([
    ['of a season', { kind: 'season', year: 2026 }, ['Heron-14-2.svg', 'Heron-14.svg']],
    ['all', { kind: 'all' }, ['Avocet-16.svg', 'Heron-14-2.svg', 'Heron-14.svg']],
  ] as const)('%s have a file each, and no name covers another', async (word, of, files) => {
    const into = place(word)
    const { made } = await host.service['publish.batch']({ of, folder: into, make: dots }, context())
    expect(made.map(one => one.problem)).toEqual(files.map(() => null))
    expect(readdirSync(into).sort()).toEqual(files)
  })
  it('of a session are those that were hit in it', async () => {
    const into = place('session')
    const of = { kind: 'session', sessionId } as const
    const { made } = await host.service['publish.batch']({ of, folder: into, make: dots }, context())
    expect(made.map(one => one.paddle)).toEqual(['Heron/14'])
  })
  it('go on where one cannot be made', async () => {
    // None has a clip at hand: each says so, and none stops the next.
    const into = place('failing')
    const make = { ...dots, order: { ...dots.order, kind: 'flight' } } as BatchOrder['make']
    const { made } = await host.service['publish.batch'](
      { of: { kind: 'all' }, folder: into, make },
      context(),
    )
    expect(made).toHaveLength(3)
    for (const one of made) expect(one.problem?.hint).toBeTruthy()
    expect(readdirSync(into)).toEqual([])
  })
  it('stop when they are cancelled, with what was made left there', async () => {
    const into = place('cancelled')
    const stop = new AbortController()
    let told = 0
    const progress = () => {
      if (++told === 2) stop.abort()
    }
    await host.service['publish.batch'](
      { of: { kind: 'all' }, folder: into, make: dots },
      context(stop.signal, progress),
    )
    expect(readdirSync(into).length).toBeLessThan(3)
    expect(readdirSync(into).length).toBeGreaterThan(0)
  })
  it.each([
    ['a folder that is not there', { kind: 'all' }, 'none', 'target-no-folder'],
    ['a season without hits', { kind: 'season', year: 1999 }, '.', 'many-of-none'],
  ] as const)('say what is wrong with %s', async (_, of, into, code) => {
    const asked = host.service['publish.batch']({ of, folder: join(folder, into), make: dots }, context())
    await expect(asked).rejects.toMatchObject({ code })
  })
})

describe('a look that was kept', () => {
  const saved = {
    name: 'Channel',
    look: {
      ...usualLook,
      theme: 'dark',
      accents: 'greys',
      figures: { numbers: 'space-comma', unit: 'turns-per-second' },
    },
    size: { widthPx: 640, heightPx: null },
    clip: usualClip,
  } as const
  it('is there under its name, gives way to one of the same name, and can be dropped', async () => {
    const { service } = host
    expect(await service['publish.keepLook']({ saved }, context())).toEqual([saved])
    const again = { ...saved, name: 'channel', size: usualSize }
    expect(await service['publish.keepLook']({ saved: again }, context())).toEqual([again])
    expect(await service['publish.looks']({}, context())).toEqual([again])
    expect(await service['publish.dropLook']({ name: 'CHANNEL' }, context())).toEqual([])
  })
  it('is what the command line draws by, for one and for many', async () => {
    await host.service['publish.keepLook']({ saved }, context())
    const [to, into] = [join(folder, 'dots.svg'), place('by look')]
    const words = ['picture', 'dots', 'Heron 14', '--look', 'channel', '--workspace', workspaceFile]
    expect((await said([...words, '--to', to])).code).toBe(0)
    const svg = readFileSync(to, 'utf8')
    expect(svg).toContain('width="640"')
    expect(svg).toContain('#131719')
    // 2311.67 rpm are 38.53 turns a second.
    expect(svg).toMatch(/>38,5\d?\u00a0±\u00a0/)
    const many = ['report', '--season', '2026', '--into', into, '--as', 'html', '--look', 'Channel']
    expect((await said([...many, '--workspace', workspaceFile])).code).toBe(0)
    expect(readdirSync(into)).toHaveLength(2)
    expect(readFileSync(join(into, 'Heron-14.html'), 'utf8')).toContain('turns/s')
  })
})
