import { readFileSync, writeFileSync } from 'node:fs'
import { join } from 'node:path'

const samples = join(import.meta.dirname, '../../../sample-clips')

/** The smallest sample that shows a ball. */
export const sample = join(samples, 'topspin-240-c.mp4')
/** Few frames and no free camera: read in a second or two. */
export const asked = [
  ...['--from', '5', '--to', '12', '--exposure', '1/2000', '--focal-px', '1300'],
  ...['--max-rpm', '2500', '--sense', 'clockwise'],
]
/** One frame, in which nothing can be seen flying: answered at once. */
export const askedLittle = ['--from', '5', '--to', '5']

/**
 * The sample under another hash: a `free` box at its end holds nothing that a player looks at (ISO/IEC
 * 14496-12, 8.1.2).
 */
export function variation(path: string, number: number): string {
  const box = Buffer.alloc(12)
  box.writeUInt32BE(box.length, 0)
  box.write('free', 4, 'latin1')
  box.writeUInt32BE(number, 8)
  writeFileSync(path, Buffer.concat([readFileSync(sample), box]))
  return path
}
