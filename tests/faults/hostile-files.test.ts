import { mkdirSync, readdirSync, readFileSync, statSync, writeFileSync } from 'node:fs'
import { join } from 'node:path'
import { strToU8, zipSync } from 'fflate'
import { expect, it } from 'vitest'
import { importRulesSchema } from '../../core/contract/exchange.ts'
import { WhorlError } from '../../core/contract/problem.ts'
import { seededRandom } from '../../core/numerics/seeded-random.ts'
import { makeBundle } from '../../electron/bundle/make-bundle.ts'
import { readBundle } from '../../electron/bundle/read-bundle.ts'
import { lookAt, writeExport } from '../../electron/export/export.ts'
import { previewImport } from '../../electron/import/import.ts'
import { openWorkspace } from '../../electron/store/open-workspace.ts'
import { giveHits } from '../electron/export/filled-workspace.ts'
import { rawDatabase } from '../electron/store/raw-database.ts'
import { rejectedBy, temporaryWorkspace } from '../electron/store/temporary.ts'
import { mutations } from './hostile/mutate.ts'
import { ownFolder } from './open-host.ts'

const ways = mutations.filter(({ name }) => /^(bits flipped|cut off|a stretch)/.test(name))
const copies = 25
const rules = importRulesSchema.parse({})

/** Sound files of every kind that a person may be handed, each made by the program itself. */
async function sound(folder: string): Promise<Record<string, Buffer>> {
  const { workspace } = temporaryWorkspace()
  const setUps = ['Heron 14', 'Avocet 16'].map(name => workspace.createPaddle({ name, notes: '' }).setUps[0]!)
  giveHits(
    workspace,
    setUps.map(({ id }, i) => ({ setUpId: id, rpm: 1900 + 100 * i })),
  )
  const kinds = ['ratings.csv', 'ratings.xlsx', 'ratings.sqlite']
  for (const name of kinds) await writeExport(workspace, join(folder, name))
  const paddleId = workspace.paddles()[0]!.id
  const bundle = await makeBundle(workspace, { kind: 'paddle', id: paddleId }, '1', async () => strToU8('x'))
  workspace.close()
  return {
    ...Object.fromEntries(kinds.map(name => [name, readFileSync(join(folder, name))])),
    'paddle.zip': Buffer.from(bundle),
    'work.sqlite': readFileSync(workspace.file),
  }
}

/** As a person would meet it: looked at, brought in, opened. */
async function use(path: string): Promise<void> {
  if (path.endsWith('.zip')) readBundle(path, readFileSync(path))
  else if (path.endsWith('work.sqlite')) {
    const workspace = openWorkspace(path, { now: () => new Date() })
    try {
      for (const { hitId } of workspace.hits({})) workspace.hit(hitId)
    } finally {
      workspace.close()
    }
  } else {
    const { workspace } = temporaryWorkspace()
    await lookAt(workspace, path)
    await previewImport(workspace, path, rules)
  }
}

it('bundles, sheets and databases that were spoiled are used or refused by name, and nothing else is touched', async () => {
  const outer = ownFolder()
  const own = join(outer, 'own')
  mkdirSync(own)
  const files = await sound(outer)
  const outside = readdirSync(outer)
  const outcomes: Record<string, number> = {}
  for (const [name, bytes] of Object.entries(files))
    for (let seed = 0; seed < copies; seed++) {
      const random = seededRandom(seed)
      const way = ways[seed % ways.length]!
      const path = join(own, `${seed} ${name}`)
      writeFileSync(path, way.spoil(Buffer.from(bytes), random))
      const thrown = await use(path).then(
        () => null,
        error => error as unknown,
      )
      const about = `${name}, ${way.name}, seed ${seed}: ${(thrown as Error | null)?.stack}`
      if (thrown !== null) expect(thrown, about).toBeInstanceOf(WhorlError)
      const code = thrown === null ? 'used' : (thrown as WhorlError<'internal'>).code
      expect(code, about).not.toBe('internal')
      outcomes[code] = (outcomes[code] ?? 0) + 1
    }
  expect(outcomes.used).toBeGreaterThan(0)
  expect(Object.keys(outcomes).length).toBeGreaterThan(2)
  expect(readdirSync(outer)).toEqual(outside)
}, 300_000)

it('a workbook that unpacks to gigabytes, or whose parts lead elsewhere, is refused before it is unpacked', async () => {
  const bomb = Buffer.from(zipSync({ 'xl/workbook.xml': new Uint8Array(1 << 20) }))
  bomb.writeUInt32LE(0xf000_0000, bomb.indexOf(Buffer.from('PK\u0001\u0002', 'latin1')) + 24)
  const up = zipSync({ '../../outside.xml': strToU8('x'), 'xl/workbook.xml': strToU8('<x/>') })
  for (const bytes of [bomb, up]) {
    const path = join(ownFolder(), 'a.xlsx')
    writeFileSync(path, bytes)
    const { workspace } = temporaryWorkspace()
    const before = process.memoryUsage().rss
    expect(await rejectedBy(() => previewImport(workspace, path, rules))).toMatchObject({
      code: 'target-unlike',
    })
    expect(process.memoryUsage().rss - before).toBeLessThan(500e6)
    expect(readFileSync(path).equals(Buffer.from(bytes))).toBe(true)
  }
})

it('a workspace from a stranger that carries triggers of its own cannot reach another file', () => {
  const folder = ownFolder()
  const file = join(folder, 'w.sqlite')
  openWorkspace(file, { now: () => new Date() }).close()
  const elsewhere = join(folder, 'elsewhere.sqlite')
  const trap = (statement: string) =>
    rawDatabase(file).run(`CREATE TRIGGER trap AFTER INSERT ON paddle BEGIN ${statement}; END`).close()
  expect(() => trap(`ATTACH '${elsewhere}' AS e`)).toThrow()
  trap(`SELECT load_extension('${elsewhere}')`)
  const workspace = openWorkspace(file, { now: () => new Date() })
  expect(() => workspace.createPaddle({ name: 'Heron 14', notes: '' })).toThrow()
  expect(workspace.paddles()).toEqual([])
  workspace.close()
  expect(statSync(elsewhere, { throwIfNoEntry: false })).toBeUndefined()
})
