import { resolve } from 'node:path'
import { readingDocumentOf } from '../../../core/spin/read-marks.ts'
import { version } from '../../service/version.ts'
import { command, json } from '../command.ts'
import { forEachInput } from '../failure.ts'
import { marksOf, textOfFile } from '../marks-file.ts'
import { told } from '../reading-told.ts'

export default command({
  says: 'Reads the spin from files of marks (whorl.marks/1): rpm with its band, its flag and the reasons.',
  takes: 'MARKS… (- for standard input)',
  words: { least: 1, most: Number.POSITIVE_INFINITY },
  options: { json },
  example: 'whorl fit serve-014.marks.json --json',
  run: ({ words, options }, world) =>
    forEachInput(words, world, options.json, async word => {
      const [text, path] = word === '-' ? [await world.readStdin(), 'standard input'] : fileOf(word)
      const document = readingDocumentOf(marksOf(text, path), version)
      if (options.json) world.out(`${JSON.stringify(document)}\n`)
      else world.out(told(document, words.length > 1 ? path : null))
    }),
})

const fileOf = (word: string): [text: string, path: string] => [textOfFile(resolve(word)), resolve(word)]
