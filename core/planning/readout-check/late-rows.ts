import type { CheckEvidence } from '../../contract/checks.ts'

/** Points enough to see a line by. */
const mostPoints = 120

/** How late a row is seen, by its height in the picture (0 at the top, 1 at the bottom). */
export type LateRow = { height: number; lateSeconds: number }

/** What a readout rests on, to be drawn: how late the rows are seen, and the line that the readout is the end of. */
export const lateRows = (rows: readonly LateRow[], readoutSeconds: number): CheckEvidence => ({
  points: thinned(rows).map(({ height, lateSeconds }) => [100 * height, 1000 * lateSeconds]),
  joined: false,
  xWords: 'height in the picture, % from the top',
  yWords: 'seen later than the top, ms',
  lines: [],
  fit: [
    [0, 0],
    [100, 1000 * readoutSeconds],
  ],
})

/** So many of them as are drawn, evenly taken. */
export function thinned<T>(all: readonly T[], most = mostPoints): T[] {
  const step = Math.max(1, all.length / most)
  return Array.from({ length: Math.min(all.length, most) }, (_, i) => all[Math.floor(i * step)]!)
}
