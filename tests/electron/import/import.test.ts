import { writeFileSync } from 'node:fs'
import { join } from 'node:path'
import ExcelJS from 'exceljs'
import { describe, expect, it } from 'vitest'
import { type ImportRules, importRulesSchema } from '../../../core/contract/exchange.ts'
import { metricsFor } from '../../../core/ratings/metrics-for.ts'
import { previewImport, undoImport, writeImport } from '../../../electron/import/import.ts'
import type { Workspace } from '../../../electron/store/workspace.ts'
import { rawDatabase } from '../store/raw-database.ts'
import { rejectedBy, temporaryFolder, temporaryWorkspace } from '../store/temporary.ts'

const rules = (given: Partial<ImportRules> = {}) => importRulesSchema.parse(given)
function csv(text: string) {
  const path = join(temporaryFolder(), 'mine.csv')
  writeFileSync(path, text)
  return path
}
const known = (workspace: Workspace, name: string, setUp = 'stock') => {
  const paddle = workspace.paddles().find(one => one.name === name)!
  const metrics = metricsFor(
    workspace.metrics(),
    paddle.id,
    paddle.setUps.find(one => one.name === setUp)!.id,
  )
  return Object.fromEntries(metrics.map(({ name: metric, value }) => [metric, value]))
}

describe('a table of the person’s', () => {
  it('comes in whole: a mark at its beginning, units in headers, numbers and text; the second time nothing', async () => {
    const { workspace } = temporaryWorkspace()
    const path = csv('\ufeffPaddle,Swing weight (kg·cm²),Shape\r\nHeron 14,115.5,long\r\nKite,120,wide\r\n')
    const preview = await previewImport(workspace, path, rules())
    expect(preview.columns).toEqual([
      { column: 'Swing weight (kg·cm²)', name: 'Swing weight', unit: 'kg·cm²', kind: 'number' },
      { column: 'Shape', name: 'Shape', unit: '', kind: 'text' },
    ])
    expect(workspace.paddles()).toEqual([])
    await writeImport(workspace, path, rules())
    expect(known(workspace, 'Heron 14')).toEqual({ 'Swing weight': 115.5, Shape: 'long' })
    const again = await writeImport(workspace, path, rules())
    expect(again.lines.map(line => line.action)).toEqual(['same', 'same'])
    expect(workspace.transfers()).toHaveLength(1)
  })

  it('tells every cell that was not understood, by row and column, and leaves it out', async () => {
    const { workspace } = temporaryWorkspace()
    const path = csv(
      'Paddle,Weight,Price,Note\r\nHeron,221.5,199,fine\r\nKite,heavy,"1,500",=1+1\r\n=A1&"x",220,5,\r\n,219,6,\r\nHeron,222,7,\r\n',
    )
    const plan = await writeImport(workspace, path, rules())
    expect(plan.unclear.map(({ row, column, what }) => `${row} ${column}: ${what}`)).toEqual([
      '3 Weight: text in a column of numbers',
      '3 Note: a formula, not its result',
      '4 Paddle: a formula, not a name',
      '5 Paddle: the paddle has no name here',
    ])
    // The points of the other column say how numbers are written here, so 1,500 is one thousand and a half.
    expect(known(workspace, 'Kite')).toEqual({ Price: 1500 })
    expect(plan.lines.find(line => line.row === 6)).toMatchObject({ action: 'held-back', reason: /Row 2/ })
    expect(known(workspace, 'Heron').Weight).toBe(221.5)
  })

  it('with nothing that says what a comma is leaves the number unread', async () => {
    const { workspace } = temporaryWorkspace()
    const { unclear } = await previewImport(
      workspace,
      csv('Paddle;Price\nHeron;1,500\nKite;2,250\n'),
      rules(),
    )
    expect(unclear.map(({ text }) => text)).toEqual(['1,500', '2,250'])
  })

  it.each([
    ['decimal commas', 'Paddle;W\nHeron;221,5\nKite;1.221,5\n', [221.5, 1221.5]],
    ['decimal points', 'Paddle,W\nHeron,221.5\nKite,"1,221.5"\n', [221.5, 1221.5]],
    ['both', 'Paddle;W\nHeron;221.5\nKite;222,5\n', [221.5, 222.5]],
    ['a true minus and thin spaces', 'Paddle,W\nHeron,−1.5\nKite,1\u202f000\n', [-1.5, 1000]],
  ])('with %s has its numbers read', async (_case, text, values) => {
    const { workspace } = temporaryWorkspace()
    await writeImport(workspace, csv(text), rules())
    expect(['Heron', 'Kite'].map(name => known(workspace, name).W)).toEqual(values)
  })

  it('asks about names that almost match, and takes the answer', async () => {
    const { workspace } = temporaryWorkspace()
    workspace.createPaddle({ name: 'Heron 14', notes: '' })
    const path = csv('Paddle,W\r\nheron-14,1\r\nHeron 16,2\r\n')
    const plan = await writeImport(workspace, path, rules())
    expect(plan.lines[0]).toMatchObject({ action: 'held-back', almost: ['Heron 14'] })
    expect(workspace.paddles().map(({ name }) => name)).toEqual(['Heron 14', 'Heron 16'])
    await writeImport(workspace, path, rules({ names: [{ paddle: 'heron-14', as: 'Heron 14' }] }))
    expect(known(workspace, 'Heron 14')).toEqual({ W: 1 })
    expect(workspace.paddles()).toHaveLength(2)
  })

  it('with 200 columns, one twice and one without a header, says which it left out', async () => {
    const { workspace } = temporaryWorkspace()
    const names = Array.from({ length: 200 }, (_, i) => `m${i}`)
    const header = ['Paddle', ...names, 'm0', ''].join(',')
    const path = csv(`${header}\r\nHeron,${names.map((_, i) => i).join(',')},7,x\r\n`)
    const plan = await writeImport(workspace, path, rules({ leftOut: ['m5'] }))
    expect(Object.keys(known(workspace, 'Heron'))).toHaveLength(200)
    expect(known(workspace, 'Heron')).toMatchObject({ m0: 0, 'm0 2': 7, m199: 199 })
    expect(plan.notes).toEqual([expect.stringMatching(/m0 2/), expect.stringMatching(/^Column GU /)])
  })

  it('of a workbook brings the results of formulas, and dates as days', async () => {
    const { workspace } = temporaryWorkspace()
    const path = join(temporaryFolder(), 'mine.xlsx')
    const book = new ExcelJS.Workbook()
    book.addWorksheet('Notes').addRow(['nothing', 'here'])
    const sheet = book.addWorksheet('All')
    sheet.addRow(['Model', 'Setup', 'Twist', 'Bought'])
    sheet.addRow([
      { formula: '"Her"&"on"', result: 'Heron' },
      'weighted',
      { formula: '3+4', result: 7 },
      new Date(Date.UTC(2026, 4, 31)),
    ])
    writeFileSync(path, Buffer.from(await book.xlsx.writeBuffer()))
    const plan = await writeImport(workspace, path, rules())
    expect(plan).toMatchObject({ table: 'All', paddleColumn: 'Model', setUpColumn: 'Setup', unclear: [] })
    expect(known(workspace, 'Heron', 'weighted')).toEqual({ Twist: 7, Bought: '2026-05-31' })
    expect(known(workspace, 'Heron')).toEqual({})
  })

  it('of a database comes by its table, and is taken back', async () => {
    const { workspace } = temporaryWorkspace()
    const path = join(temporaryFolder(), 'mine.sqlite')
    rawDatabase(path)
      .run(`CREATE TABLE other (x); CREATE TABLE "the ""best""" (paddle, power REAL, picture BLOB);
        INSERT INTO "the ""best""" VALUES ('Heron', 54.25, x'00'), (14, 60, NULL)`)
      .close()
    await writeImport(workspace, path, rules())
    expect(known(workspace, 'Heron')).toEqual({ power: 54.25 })
    expect(known(workspace, '14')).toEqual({ power: 60 })
    undoImport(workspace, workspace.transfers()[0]!.id)
    expect(workspace.paddles()).toEqual([])
    const again = workspace.transfers()[0]!
    expect(again).toMatchObject({ canUndo: false, undoneAt: expect.any(String) })
    expect(await rejectedBy(async () => undoImport(workspace, again.id))).toMatchObject({
      code: 'undo-refused',
    })
  })

  it.each([
    ['that names no paddle', 'a,b\r\n1,2\r\n', 'import-no-paddle'],
    ['that is empty', '', 'import-nothing'],
    ['that is no CSV', 'Paddle,"W\r\nHeron,1\r\n', 'target-unlike'],
  ])('%s is told', async (_case, text, code) => {
    const { workspace } = temporaryWorkspace()
    expect(await rejectedBy(() => previewImport(workspace, csv(text), rules()))).toMatchObject({ code })
  })
})
