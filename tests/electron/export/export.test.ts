import { existsSync, readFileSync, statSync } from 'node:fs'
import { join } from 'node:path'
import { describe, expect, it } from 'vitest'
import { type ExportPlan, exportPlanSchema } from '../../../core/contract/workspace.ts'
import { previewExport, writeExport } from '../../../electron/export/export.ts'
import { temporaryFolder, temporaryWorkspace } from '../store/temporary.ts'
import { fillWorkspace, giveHits } from './filled-workspace.ts'

const summary = (plan: ExportPlan) =>
  plan.lines.map(line => `${line.action} ${line.paddle} ${line.after?.hits ?? '-'}`)

describe.each(['sqlite', 'csv'] as const)('an export to %s', kind => {
  const newTarget = () => join(temporaryFolder(), `ratings.${kind}`)

  it('previews what it will do and writes nothing', async () => {
    const { workspace } = temporaryWorkspace()
    fillWorkspace(workspace)
    const target = newTarget()
    const plan = await previewExport(workspace, target)
    expect(exportPlanSchema.parse(plan)).toEqual(plan)
    expect(plan).toMatchObject({ target, kind, written: false })
    expect(summary(plan)).toEqual([
      'add Avocet 16 2',
      'held-back Avocet 16 -',
      'add Heron 14 3',
      'held-back Merlin X -',
      'held-back  -',
    ])
    expect(existsSync(target)).toBe(false)
    expect(workspace.recentTargets()).toEqual([])
  })

  it('says of every hit held back which one and why', async () => {
    const { workspace } = temporaryWorkspace()
    fillWorkspace(workspace)
    const [avocet, merlin, none] = (await previewExport(workspace, newTarget())).lines.filter(
      line => line.action === 'held-back',
    )
    expect(avocet?.reason).toBe('1 hit (drive 01.mp4 from frame 50): Not accepted yet.')
    expect(merlin?.reason).toMatch(/^1 hit .*from frame 60.*nobody has chosen/)
    expect(none?.reason).toMatch(/^1 hit .*from frame 70.*No paddle/)
  })

  it('writes the previewed rows, and writing again changes nothing, the file included', async () => {
    const { workspace } = temporaryWorkspace()
    fillWorkspace(workspace)
    const target = newTarget()
    const preview = await previewExport(workspace, target)
    expect(await writeExport(workspace, target)).toEqual({ ...preview, written: true })
    const bytes = readFileSync(target)
    const { mtimeMs } = statSync(target)
    const again = await writeExport(workspace, target)
    expect(summary(again)).toEqual([
      'same Avocet 16 2',
      'held-back Avocet 16 -',
      'same Heron 14 3',
      'held-back Merlin X -',
      'held-back  -',
    ])
    expect(readFileSync(target).equals(bytes)).toBe(true)
    expect(statSync(target).mtimeMs).toBe(mtimeMs)
    expect(workspace.recentTargets()).toEqual([target])
  })

  it('shows old and new where a figure changed, and changes only that row', async () => {
    const { workspace } = temporaryWorkspace()
    const { heron } = fillWorkspace(workspace)
    const target = newTarget()
    const first = (await writeExport(workspace, target)).lines.find(line => line.paddle === 'Heron 14')!.after
    giveHits(workspace, [{ setUpId: heron, rpm: 2500, methodVersion: '2' }], '2026-06-02', 120)
    const change = (await previewExport(workspace, target)).lines.find(line => line.paddle === 'Heron 14')!
    expect(change).toMatchObject({ action: 'change', before: first })
    expect(change.after).toMatchObject({
      hits: 4,
      date: '2026-06-02',
      captureFps: '120, 240',
      methodVersion: '1, 2',
    })
    expect(change.after?.evidence).not.toBe(first?.evidence)
    await writeExport(workspace, target)
    const now = await previewExport(workspace, target)
    expect(now.lines.find(line => line.paddle === 'Heron 14')).toMatchObject({
      action: 'same',
      before: change.after,
    })
  })

  it('keeps a row whose hits are all held back now, and says so', async () => {
    const { workspace } = temporaryWorkspace()
    const { hitIds } = fillWorkspace(workspace)
    const target = newTarget()
    await writeExport(workspace, target)
    for (const hitId of hitIds.slice(0, 3))
      workspace.saveEdit(hitId, { kind: 'decide', verdict: { state: 'held-back', reason: 'wrong ball' } })
    const line = (await writeExport(workspace, target)).lines.find(one => one.paddle === 'Heron 14')!
    expect(line).toMatchObject({ action: 'held-back', before: { hits: 3 }, after: null })
    expect(line.reason).toMatch(/3 hits .*by hand: wrong ball.*stays as it is/)
    const third = (await previewExport(workspace, target)).lines.find(one => one.paddle === 'Heron 14')
    expect(third?.before?.hits).toBe(3)
  })

  it('of nothing that may be rated makes no file', async () => {
    const { workspace } = temporaryWorkspace()
    const target = newTarget()
    expect(await writeExport(workspace, target)).toMatchObject({ lines: [], written: true })
    expect(existsSync(target)).toBe(false)
  })

  it('leaves a stale reading out', async () => {
    const { workspace } = temporaryWorkspace()
    const { hitIds } = fillWorkspace(workspace)
    workspace.saveEdit(hitIds[0]!, {
      kind: 'place-outline',
      outline: { frame: 1, xPx: 50, yPx: 50, radiusPx: 9 },
    })
    const lines = (await previewExport(workspace, newTarget())).lines.filter(
      line => line.paddle === 'Heron 14',
    )
    expect(lines[0]?.after?.hits).toBe(2)
    expect(lines[1]?.reason).toMatch(/open it to read it again/)
  })

  it('carries the flag, the limit and the reason of a choice', async () => {
    const { workspace } = temporaryWorkspace()
    fillWorkspace(workspace)
    const target = newTarget()
    await writeExport(workspace, target)
    const avocet = (await previewExport(workspace, target)).lines.find(
      line => line.paddle === 'Avocet 16',
    )?.before
    expect(avocet).toMatchObject({ flag: 'ambiguous', limit: 'sense', settledReason: 'a topspin drive' })
  })

  it('leaves the rows of another workspace as they are', async () => {
    const target = newTarget()
    const [one, two] = [temporaryWorkspace().workspace, temporaryWorkspace().workspace]
    fillWorkspace(one)
    await writeExport(one, target)
    const { setUps } = two.createPaddle({ name: 'Osprey', notes: '' })
    giveHits(two, [{ setUpId: setUps[0]!.id, rpm: 1800 }])
    expect(summary(await writeExport(two, target))).toEqual(['add Osprey 1'])
    expect(summary(await previewExport(one, target)).filter(line => line.startsWith('same'))).toHaveLength(2)
  })

  it('keeps names that would be taken for something else', async () => {
    const { workspace } = temporaryWorkspace()
    const target = newTarget()
    const names = [
      '=1+1',
      '+cmd',
      '-5',
      '@x',
      "'=1",
      "O'Neill",
      'a,b;c\td',
      'line\nbreak',
      'say "hi"',
      ' spaced ',
      '007',
      'null',
      '＝1',
      "x'); DROP TABLE whorl_spin; --",
    ]
    for (const name of names) {
      const { setUps } = workspace.createPaddle({ name, notes: '' })
      giveHits(workspace, [{ setUpId: setUps[0]!.id, rpm: 2000 }], '2026-05-31', 240)
    }
    await writeExport(workspace, target)
    const plan = await previewExport(workspace, target)
    expect(new Set(plan.lines.map(line => line.action))).toEqual(new Set(['same']))
    expect(plan.lines.map(line => line.before?.paddle).toSorted()).toEqual(names.toSorted())
  })
})
