import type { FoundBy } from '../../../core/contract/cameras.ts'
import { dayInWords } from '../../components/day-words.ts'

const ways: Record<FoundBy['way'], string> = {
  turntable: 'by a turntable',
  drop: 'by a dropped ball',
  lamp: 'by a lamp',
  counter: 'by a counter',
  bands: 'by a lamp’s bands',
  spin: 'by something that spins',
  edge: 'by a moved edge',
  ball: 'by a ball at a known distance',
  view: 'by its field of view',
  width: 'by a known width',
  said: 'as you said',
}

/** Where a figure came from: `by a turntable, table.mov, 30 May 2026`. */
export const foundWords = ({ way, clip, day }: FoundBy): string =>
  [ways[way], ...(clip === null ? [] : [clip]), dayInWords(day)].join(', ')
