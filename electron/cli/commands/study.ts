import { resolve } from 'node:path'
import { WhorlError } from '../../../core/contract/problem.ts'
import type { StudyDocument } from '../../../core/contract/study.ts'
import { studyFigures } from '../../../core/marking/study-figures.ts'
import { strangersIn, studyRemarksOf } from '../../../core/marking/study-of-marks.ts'
import { version } from '../../service/version.ts'
import { command, json } from '../command.ts'
import { marksOf, textOfFile } from '../marks-file.ts'
import { studyTold } from '../study-told.ts'
import { positiveNumber } from '../values.ts'

export default command({
  says:
    'Compares files of marks (whorl.marks/1) that hold the same hit marked again, blind: how far a person’s\n' +
    'clicks scatter (repeatability) and how people differ (bias, reproducibility), in the words of ISO 5725.\n' +
    'A mark is the same where frame and mark name are. All files are one person’s, and every marking counts\n' +
    'alike, unless --people or --each says whose they are.',
  takes: 'MARKS MARKS…',
  words: { least: 2, most: Number.POSITIVE_INFINITY },
  options: {
    people: { says: 'each file is another person’s' },
    each: {
      takes: 'N',
      says: 'each N files in a row are another person’s (N = 2: A1 A2 B1 B2)',
      read: positiveNumber,
    },
    json,
  },
  example: 'whorl study ada-1.marks.json ada-2.marks.json ben-1.marks.json ben-2.marks.json --each 2',
  run: async ({ words, options }, world) => {
    const each = options.each ?? (options.people ? 1 : words.length)
    if (!Number.isInteger(each) || words.length % each !== 0)
      throw new WhorlError('usage', {
        what: `--each ${each} does not divide ${words.length} files.`,
        hint: 'Give every person the same number of files, one person’s after the other’s.',
      })
    const files = words.map((word, i) => ({
      path: resolve(word),
      person: personName(Math.floor(i / each)),
    }))
    const marked = files.map(({ path, person }) => ({ person, marks: marksOf(textOfFile(path), path) }))
    const document: StudyDocument = {
      schema: 'whorl.study/1',
      files,
      ...studyFigures(studyRemarksOf(marked)),
      warnings: strangersIn(marked.map(({ marks }) => marks)).map(({ file, alone }) => ({
        code: 'marked-once',
        message: `${files[file]!.path}: ${alone === 1 ? 'one mark is' : `${alone} marks are`} in no other file.`,
      })),
      software: { version },
    }
    world.out(options.json ? `${JSON.stringify(document)}\n` : studyTold(document))
    return 0
  },
})

/** A, B, C … and on from there by number: files do not say who marked them. */
const personName = (index: number): string =>
  index < 26 ? String.fromCharCode(65 + index) : `person ${index + 1}`
