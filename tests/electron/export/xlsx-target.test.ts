import { readdirSync, readFileSync, writeFileSync } from 'node:fs'
import { dirname, join } from 'node:path'
import ExcelJS from 'exceljs'
import { strFromU8, strToU8, unzipSync, zipSync } from 'fflate'
import { describe, expect, it } from 'vitest'
import { lookAt, previewExport, undoExport, writeExport } from '../../../electron/export/export.ts'
import { xlsxFormat } from '../../../electron/export/xlsx-format.ts'
import { rejectedBy, temporaryFolder, temporaryWorkspace } from '../store/temporary.ts'
import { fillWorkspace } from './filled-workspace.ts'

function filled() {
  const { workspace } = temporaryWorkspace()
  fillWorkspace(workspace)
  return workspace
}

/** A person's workbook, made by another library: a title, formats, formulas, a list to choose from, more sheets. */
async function personsWorkbook(change: (sheet: ExcelJS.Worksheet) => void = () => {}) {
  const path = join(temporaryFolder(), 'my paddles.xlsx')
  const book = new ExcelJS.Workbook()
  const sheet = book.addWorksheet('Paddles & more')
  sheet.getCell('A1').value = 'All paddles'
  sheet.getRow(3).values = ['Paddle', 'Shape', 'Spin (rpm)', 'Hits', 'Date', 'Spin over 2000', 'Price']
  sheet.getRow(4).values = [
    'Heron 14',
    'long',
    2111,
    4,
    new Date(Date.UTC(2025, 0, 2)),
    { formula: 'C4-2000', result: 111 },
    199.9,
  ]
  sheet.getRow(5).values = [
    'Kite <11> & "x"',
    'wide',
    1500.5,
    2,
    new Date(Date.UTC(2025, 5, 30)),
    { formula: 'C5-2000', result: -499.5 },
    5,
  ]
  for (const row of [4, 5]) {
    sheet.getCell(`C${row}`).numFmt = '0'
    sheet.getCell(`C${row}`).font = { bold: true, color: { argb: 'FF336699' } }
    sheet.getCell(`E${row}`).numFmt = 'yyyy-mm-dd'
    sheet.getCell(`B${row}`).dataValidation = { type: 'list', allowBlank: true, formulae: ['"long,wide"'] }
  }
  sheet.getColumn(1).width = 33
  sheet.mergeCells('A1:C1')
  sheet.addConditionalFormatting({
    ref: 'C4:C99',
    rules: [
      {
        type: 'cellIs',
        operator: 'greaterThan',
        priority: 1,
        formulae: [2200],
        style: { font: { italic: true } },
      },
    ],
  })
  const other = book.addWorksheet('Sums')
  other.getCell('A1').value = { formula: "AVERAGE('Paddles & more'!C4:C5)", result: 1805.75 }
  change(sheet)
  writeFileSync(path, Buffer.from(await book.xlsx.writeBuffer()))
  return path
}

const partsOf = (path: string) =>
  Object.fromEntries(
    Object.entries(unzipSync(readFileSync(path))).map(([name, bytes]) => [name, strFromU8(bytes)]),
  )
const opened = async (path: string) => {
  const book = new ExcelJS.Workbook()
  await book.xlsx.readFile(path)
  return book
}

describe('a person’s workbook', () => {
  it('has only the mapped cells written, as another library reads it; all else stays byte for byte', async () => {
    const workspace = filled()
    const path = await personsWorkbook()
    const before = partsOf(path)
    const plan = await writeExport(workspace, path)
    expect(plan.mapping).toMatchObject({
      table: 'Paddles & more',
      columns: { paddle: 'Paddle', mean_rpm: 'Spin (rpm)', hits: 'Hits', date: 'Date' },
    })
    const after = partsOf(path)
    const changed = Object.keys(after).filter(name => after[name] !== before[name])
    // The sheet, and the workbook’s part: its formulas are computed anew when it is opened.
    expect(changed.toSorted()).toEqual(['xl/workbook.xml', 'xl/worksheets/sheet1.xml'])
    expect(Object.keys(after)).toEqual(Object.keys(before))
    const untouched = (xml: string) => xml.replace(/<row r="[46]".*?<\/row>|<dimension [^>]*>/g, '')
    expect(untouched(after['xl/worksheets/sheet1.xml']!)).toBe(untouched(before['xl/worksheets/sheet1.xml']!))

    const sheet = (await opened(path)).getWorksheet('Paddles & more')!
    const heron = plan.lines.find(line => line.paddle === 'Heron 14')!.after!
    expect(sheet.getCell('C4').value).toBe(heron.meanRpm)
    expect(sheet.getCell('C4').numFmt).toBe('0')
    expect(sheet.getCell('C4').font.bold).toBe(true)
    expect(sheet.getCell('E4').value).toEqual(new Date(Date.UTC(2026, 4, 31)))
    expect(sheet.getCell('F4').formula).toBe('C4-2000')
    expect(sheet.getCell('B5').dataValidation.formulae).toEqual(['"long,wide"'])
    expect(sheet.getRow(6).values).toEqual([
      undefined,
      'Avocet 16',
      undefined,
      expect.any(Number),
      2,
      new Date(Date.UTC(2026, 4, 31)),
    ])
    expect(sheet.getCell('C6').font.bold).toBe(true)
    expect(sheet.getColumn(1).width).toBe(33)
    expect(sheet.getCell('A1').isMerged).toBe(true)
  })

  it('stays as it is the second time, has a copy beside it, and is the very file again when undone', async () => {
    const workspace = filled()
    const path = await personsWorkbook()
    const bytes = readFileSync(path)
    await writeExport(workspace, path)
    const written = readFileSync(path)
    const again = await writeExport(workspace, path)
    expect(again.lines.filter(line => line.after).map(line => line.action)).toEqual(['same', 'same'])
    expect(readFileSync(path).equals(written)).toBe(true)
    const copies = readdirSync(dirname(path)).filter(name => name.includes('.before-'))
    expect(copies).toHaveLength(1)
    expect(readFileSync(join(dirname(path), copies[0]!)).equals(bytes)).toBe(true)
    await undoExport(workspace, path)
    expect(readFileSync(path).equals(bytes)).toBe(true)
    expect(readdirSync(dirname(path))).toEqual(['my paddles.xlsx'])
  })

  it('is not undone once a person has worked on it, and is told which cell', async () => {
    const workspace = filled()
    const path = await personsWorkbook()
    await writeExport(workspace, path)
    const book = await opened(path)
    book.getWorksheet('Paddles & more')!.getCell('D4').value = 77
    await book.xlsx.writeFile(path)
    const thrown = await rejectedBy(() => undoExport(workspace, path))
    expect(thrown).toMatchObject({
      code: 'undo-refused',
      message: expect.stringMatching(/hits of Heron 14 .* from 3 to 77/),
    })
  })

  it('with a formula where a figure would go is held back there', async () => {
    const workspace = filled()
    const path = await personsWorkbook(sheet => {
      sheet.getCell('C4').value = { formula: '2000+111', result: 2111 }
    })
    const { lines } = await previewExport(workspace, path)
    expect(lines.find(line => line.paddle === 'Heron 14')).toMatchObject({
      action: 'held-back',
      reason: expect.stringMatching(/formula in Spin \(rpm\)/),
    })
  })

  it('that is new holds every field', async () => {
    const workspace = filled()
    const path = join(temporaryFolder(), 'new.xlsx')
    const plan = await writeExport(workspace, path)
    const sheet = (await opened(path)).getWorksheet('whorl_spin')!
    const heron = plan.lines.find(line => line.paddle === 'Heron 14')!.after!
    expect(sheet.getRow(3).getCell(1).value).toBe('Heron 14')
    expect(sheet.getRow(3).getCell(3).value).toBe(heron.meanRpm)
    expect(sheet.getRow(3).getCell(14).value).toBe(heron.evidence)
    const again = await previewExport(workspace, path)
    expect(again.lines.find(line => line.paddle === 'Heron 14')).toMatchObject({
      action: 'same',
      before: heron,
    })
    await undoExport(workspace, path)
    expect(readdirSync(dirname(path))).toEqual([])
  })

  it('is looked at: sheets, headers, what they suggest', async () => {
    const { tables } = await lookAt(filled(), await personsWorkbook())
    expect(tables.map(({ table }) => table)).toEqual(['Paddles & more', 'Sums'])
    expect(tables[1]!.guess).toBeNull()
  })

  it.each([
    ['not a zip', () => Buffer.from('PK nothing')],
    ['a zip of other things', () => zipSync({ 'a.txt': strToU8('x') })],
    [
      'a workbook whose sheet is cut off',
      async () => {
        const files = unzipSync(readFileSync(await personsWorkbook()))
        const sheet = files['xl/worksheets/sheet1.xml']!
        return zipSync({ ...files, 'xl/worksheets/sheet1.xml': sheet.slice(0, sheet.length / 2) })
      },
    ],
  ])('that is %s is refused and stays', async (_case, make) => {
    const workspace = filled()
    const path = join(temporaryFolder(), 'a.xlsx')
    const bytes = await make()
    writeFileSync(path, bytes)
    expect(await rejectedBy(() => writeExport(workspace, path))).toMatchObject({ code: 'target-unlike' })
    expect(readFileSync(path).equals(Buffer.from(bytes))).toBe(true)
  })
})

describe('a cell of a workbook', () => {
  function holding(text: string) {
    const path = join(temporaryFolder(), 'a.xlsx')
    const edits = [{ row: 0, column: 0, value: text }]
    writeFileSync(path, xlsxFormat.edited(xlsxFormat.fresh(['paddle', 'x']), 'whorl_spin', edits, []))
    return { path, ours: xlsxFormat.tables(readFileSync(path))[0]!.grid.rows[0]![0]!.value }
  }

  it.each(['a & <b> "c"', 'tab\tline\nend', ' spaces ', '=1+1', '🎾', 'e\u0301'])(
    'holds %j as it is',
    async text => {
      const { path, ours } = holding(text)
      expect(ours).toBe(text)
      expect((await opened(path)).worksheets[0]!.getCell('A2').value).toBe(text)
    },
  )

  // ECMA-376 part 1, 22.9.2.19 (ST_Xstring), which the other library does not read in inline texts.
  it.each([
    ['return\rbell\u0007', 'return_x000D_bell_x0007_'],
    ['_x0041_', '_x005F_x0041_'],
  ])('holds %j as the standard has it', (text, written) => {
    const { path, ours } = holding(text)
    expect(ours).toBe(text)
    expect(partsOf(path)['xl/worksheets/sheet1.xml']).toContain(`>${written}<`)
  })
})
