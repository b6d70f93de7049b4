import { describe, expect, it } from 'vitest'
import { visualRuns } from '../../../electron/publish/visual-runs.ts'

/** What an eye sees from left to right: runs of scripts from the right are drawn from their end. */
const seen = (line: string) =>
  visualRuns(line, false)
    .map(({ text, font }) => (font === 'hebrew' || font === 'arabic' ? [...text].reverse().join('') : text))
    .join('')

describe('a line with a script from the right', () => {
  // UAX #9 (Unicode bidirectional algorithm), its examples of resolving levels and reordering, with capitals
  // as letters from the right: "car means CAR." is seen as "car means RAC."; numbers keep their own order.
  // Examples from memory, here with Hebrew letters.
  it.each([
    ['car means \u05d0\u05d1\u05d2.', 'car means \u05d2\u05d1\u05d0.'],
    ['\u05d0\u05d1 \u05d2\u05d3 is a car', '\u05d3\u05d2 \u05d1\u05d0 is a car'],
    [
      'he said \u201c\u05d0\u05d1 \u05d2\u05d3 123, 456, \u05d4\u05d5\u201d.',
      'he said \u201c\u05d5\u05d4 ,456 ,123 \u05d3\u05d2 \u05d1\u05d0\u201d.',
    ],
    // A bracket is the mirror image of itself where it is read from the right (UAX #9, L4).
    ['\u05d0 (\u05d1) \u05d2', '\u05d2 (\u05d1) \u05d0'],
  ])('%s', (logical, visual) => expect(seen(logical)).toBe(visual))

  it('keeps a set-up that follows a name apart from it', () => {
    expect(seen('\u05d0\u05d1 \u05d2\u05d3\u200e, 4 g at three')).toBe(
      '\u05d3\u05d2 \u05d1\u05d0, 4 g at three',
    )
  })
  it('keeps the words of a name in one run, in the order in which they are read', () => {
    expect(visualRuns('Spin of \u05d0\u05d1 \u05d2\u05d3', true)).toEqual([
      { text: 'Spin of ', font: 'bold' },
      { text: '\u05d0\u05d1 \u05d2\u05d3', font: 'hebrew' },
    ])
  })
  it('cuts no emoji in two', () => {
    expect(seen('\u05d0 👩‍👩‍👧 🏓 \u05d1')).toBe('\u05d1 🏓 👩‍👩‍👧 \u05d0')
  })
})
