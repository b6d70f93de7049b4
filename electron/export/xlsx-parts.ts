import { strToU8 } from 'fflate'
import { cellName } from './sheet.ts'
import { escapedText } from './xlsx-text.ts'
import { zipped } from './zip.ts'

const head = '<?xml version="1.0" encoding="UTF-8" standalone="yes"?>\n'
const main = 'http://schemas.openxmlformats.org/spreadsheetml/2006/main'
const office = 'http://schemas.openxmlformats.org/officeDocument/2006/relationships'
const types = 'application/vnd.openxmlformats-officedocument.spreadsheetml'
const relations = (id: string, type: string, target: string) =>
  `${head}<Relationships xmlns="http://schemas.openxmlformats.org/package/2006/relationships"><Relationship Id="${id}" Type="${office}/${type}" Target="${target}"/></Relationships>`

/** A workbook with one sheet and its first row: the least that ECMA-376 asks for. */
export function newWorkbook(sheet: string, header: readonly string[]): Uint8Array {
  const cells = header
    .map((text, i) => `<c r="${cellName(i, 1)}" t="inlineStr"><is><t>${escapedText(text)}</t></is></c>`)
    .join('')
  const parts = {
    '[Content_Types].xml': `${head}<Types xmlns="http://schemas.openxmlformats.org/package/2006/content-types"><Default Extension="rels" ContentType="application/vnd.openxmlformats-package.relationships+xml"/><Default Extension="xml" ContentType="application/xml"/><Override PartName="/xl/workbook.xml" ContentType="${types}.sheet.main+xml"/><Override PartName="/xl/worksheets/sheet1.xml" ContentType="${types}.worksheet+xml"/></Types>`,
    '_rels/.rels': relations('rId1', 'officeDocument', 'xl/workbook.xml'),
    'xl/workbook.xml': `${head}<workbook xmlns="${main}" xmlns:r="${office}"><sheets><sheet name="${escapedText(sheet)}" sheetId="1" r:id="rId1"/></sheets></workbook>`,
    'xl/_rels/workbook.xml.rels': relations('rId1', 'worksheet', 'worksheets/sheet1.xml'),
    'xl/worksheets/sheet1.xml': `${head}<worksheet xmlns="${main}"><dimension ref="A1:${cellName(header.length - 1, 1)}"/><sheetData><row r="1">${cells}</row></sheetData></worksheet>`,
  }
  return zipped(Object.fromEntries(Object.entries(parts).map(([path, xml]) => [path, strToU8(xml)])))
}

/**
 * The workbook's part, told to compute its formulas anew when it is opened: their stored results are older
 * than the cells that were written.
 */
export function withRecalculation(xml: string): string {
  if (/<(\w+:)?calcPr\b/.test(xml))
    return /fullCalcOnLoad=/.test(xml)
      ? xml.replace(/fullCalcOnLoad="[^"]*"/, 'fullCalcOnLoad="1"')
      : xml.replace(/<((?:\w+:)?calcPr)\b/, '<$1 fullCalcOnLoad="1"')
  // It stands behind these, in this order (ECMA-376, CT_Workbook).
  const before = ['definedNames', 'externalReferences', 'functionGroups', 'sheets']
  for (const name of before) {
    const [end, prefix = ''] = new RegExp(`</(\\w+:)?${name}>`).exec(xml) ?? []
    if (end) return xml.replace(end, `${end}<${prefix}calcPr fullCalcOnLoad="1"/>`)
  }
  return xml
}
