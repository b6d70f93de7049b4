import Papa from 'papaparse'
import type { CallContext } from '../../core/contract/calls.ts'
import type { ReportOrder } from '../../core/contract/publish.ts'
import type { TableRow } from '../../core/contract/standings.ts'
import { roundForShow } from '../../core/numerics/round-for-show.ts'
import { type FigureLine, figureLine, markdownLines, plainLines } from '../../core/picture/figure-lines.ts'
import { type Figures, figuresIn } from '../../core/picture/figure-text.ts'
import { guardCell } from '../export/csv-cell.ts'
import type { Parts } from '../service/parts.ts'
import type { RatingCalls } from './pictures.ts'

type Form = Extract<ReportOrder['format'], 'txt' | 'md' | 'csv'>

/** The figures of the paddles that were ordered, a line each; of a session, of those that were hit in it. */
export async function figureFile(
  { workspace }: Parts,
  ratings: RatingCalls,
  { of, figures }: ReportOrder,
  form: Form,
  context: CallContext,
): Promise<string> {
  const { rows } = await ratings['ratings.table']({}, context)
  const wanted = new Set(wantedIn(workspace, rows, of))
  const ranked = rows.filter(row => row.rank !== null).length
  const lines = rows
    .filter(row => wanted.has(row.setUpId))
    .map((row): FigureLine => {
      const rates = workspace.evidence({ setUpId: row.setUpId }).flatMap(({ captureFps }) => captureFps ?? [])
      return { ...row, ranked, captureFps: [...new Set(rates)] }
    })
  return forms[form](lines, figuresIn(figures))
}

function wantedIn(
  workspace: Parts['workspace'],
  rows: readonly TableRow[],
  of: ReportOrder['of'],
): (string | null)[] {
  switch (of.kind) {
    case 'paddle':
      return [of.setUpId]
    case 'comparison':
      return of.setUpIds
    case 'session':
      return workspace.evidence({ sessionId: of.sessionId }).map(({ row }) => row.setUpId)
    case 'all':
      return rows.filter(row => row.meanRpm !== null).map(row => row.setUpId)
  }
}

const forms: Record<Form, (lines: readonly FigureLine[], figures: Figures) => string> = {
  txt: plainLines,
  md: markdownLines,
  csv: (lines, figures) =>
    `${Papa.unparse([header, ...lines.map(line => csvRow(line, figures))], { newline: '\r\n' })}\r\n`,
}

const header = [
  'paddle',
  'set_up',
  'rpm',
  'half_width_rpm',
  'band_level',
  'hits',
  'percentile',
  'flag',
  'in_words',
]

/** A table is read by programs: its figures are rpm with a decimal point, the words alone are in the form chosen. */
function csvRow(line: FigureLine, figures: Figures): (string | number)[] {
  const { paddle, setUp, meanRpm, band, hits, percentile, flag } = line
  const shown = meanRpm !== null && band ? roundForShow(meanRpm, (band.highRpm - band.lowRpm) / 2) : null
  return [
    ...[guardCell(paddle), guardCell(setUp), shown?.value ?? '', shown?.uncertainty ?? '', band?.level ?? ''],
    ...[hits, percentile === null ? '' : Math.round(percentile), flag, guardCell(figureLine(line, figures))],
  ]
}
