import { chmodSync, readdirSync, readFileSync, statSync, symlinkSync, writeFileSync } from 'node:fs'
import { dirname, join } from 'node:path'
import { describe, expect, it } from 'vitest'
import { guardCell, unguardCell } from '../../../electron/export/csv-cell.ts'
import { previewExport, writeExport } from '../../../electron/export/export.ts'
import { temporaryFolder, temporaryWorkspace } from '../store/temporary.ts'
import { fillWorkspace, giveHits } from './filled-workspace.ts'

function filled() {
  const { workspace } = temporaryWorkspace()
  return { workspace, ...fillWorkspace(workspace) }
}
const newTarget = () => join(temporaryFolder(), 'ratings.csv')
const header =
  'paddle,set_up,mean_rpm,band_low_rpm,band_high_rpm,band_level,hits,flag,ceiling_limit,settled_reason,capture_fps,method_version,date,evidence'

describe('a sheet', () => {
  it('is written as RFC 4180 has it: a header, CRLF, numbers unrounded and unquoted', async () => {
    const { workspace } = filled()
    const target = newTarget()
    const rows = (await writeExport(workspace, target)).lines.flatMap(line => line.after ?? [])
    const [heron] = rows.filter(row => row.paddle === 'Heron 14')
    const lines = readFileSync(target, 'utf8').split('\r\n')
    expect(lines).toHaveLength(4)
    expect(lines[0]).toBe(header)
    const { lowRpm, highRpm } = heron!.band
    expect(lines[2]).toBe(
      `Heron 14,stock,${heron!.meanRpm},${lowRpm},${highRpm},0.95,3,clear,,,240,1,2026-05-31,${heron!.evidence}`,
    )
    expect(lines[3]).toBe('')
    expect(readdirSync(dirname(target))).toEqual(['ratings.csv'])
  })

  it('guards text that a spreadsheet would run, and leaves negative numbers numbers', async () => {
    const { workspace } = temporaryWorkspace()
    const target = newTarget()
    const { setUps } = workspace.createPaddle({ name: '=HYPERLINK("http://x")', notes: '' })
    giveHits(workspace, [
      { setUpId: setUps[0]!.id, rpm: 2000, reading: { flag: 'ambiguous' }, settled: '+1' },
    ])
    await writeExport(workspace, target)
    const line = readFileSync(target, 'utf8').split('\r\n')[1]
    expect(line).toMatch(/^"'=HYPERLINK\(""http:\/\/x""\)",stock,2000,/)
    expect(line).toContain(",'+1,")
  })

  it.each(['=1', '+1', '-1', '@a', '\tx', '\rx', '\nx', '＝1', "'=1", "''@"])('guards %j and back', text => {
    expect(guardCell(text)).toBe(`'${text}`)
    expect(unguardCell(guardCell(text))).toBe(text)
  })

  it.each(['Heron 14', "O'Neill", "'quoted'", '1=1', ' =1', ''])('leaves %j as it is', text => {
    expect(guardCell(text)).toBe(text)
    expect(unguardCell(text)).toBe(text)
  })

  it('of the person’s keeps its mark, its line ends, its delimiter, its columns, rows and rights', async () => {
    const { workspace } = filled()
    const target = newTarget()
    const before = [
      `\ufeffnote;${header.replaceAll(',', ';')}`,
      'mine;Kite 11;stock;1500,5;;;;;;;;;;;;',
      '',
      '"keep; this";Heron 14;stock;1;1;1;0.95;1;clear;;;240;1;2026-01-01;x',
    ]
    writeFileSync(target, before.join('\r\n'))
    chmodSync(target, 0o640)
    const plan = await writeExport(workspace, target)
    expect(plan.lines.map(line => `${line.action} ${line.paddle}`)).toContain('change Heron 14')
    const after = readFileSync(target, 'utf8').split('\r\n')
    expect(after.slice(0, 3)).toEqual(before.slice(0, 3))
    expect(after[3]).toMatch(/^"keep; this";Heron 14;stock;2316\.95781892\d+;.*;3;clear;;;240;1;2026-05-31;/)
    expect(after[4]).toMatch(/^;Avocet 16;stock;/)
    expect(after).toHaveLength(6)
    expect(statSync(target).mode & 0o777).toBe(0o640)
  })

  it('with its columns in another order and line feeds is matched by their names', async () => {
    const { workspace } = filled()
    const target = newTarget()
    writeFileSync(target, `${header.split(',').toReversed().join(',')}\n`)
    await writeExport(workspace, target)
    expect(readFileSync(target, 'utf8')).not.toContain('\r')
    const actions = new Set((await previewExport(workspace, target)).lines.map(line => line.action))
    expect(actions).toEqual(new Set(['same', 'held-back']))
  })

  it('that is empty is begun anew', async () => {
    const { workspace } = filled()
    const target = newTarget()
    writeFileSync(target, '')
    await writeExport(workspace, target)
    expect(readFileSync(target, 'utf8').startsWith(`${header}\r\n`)).toBe(true)
  })

  it('behind a link is written where the link points', async () => {
    const { workspace } = filled()
    const target = newTarget()
    writeFileSync(target, `${header}\r\n`)
    const linked = join(dirname(target), 'link.csv')
    symlinkSync(target, linked)
    await writeExport(workspace, linked)
    expect(readFileSync(target, 'utf8')).toContain('Heron 14')
    const [link, copy, file] = readdirSync(dirname(target)).toSorted()
    expect([link, file]).toEqual(['link.csv', 'ratings.csv'])
    expect(readFileSync(join(dirname(target), copy!), 'utf8')).toBe(`${header}\r\n`)
  })
})
