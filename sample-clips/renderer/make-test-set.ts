import { mkdir, writeFile } from 'node:fs/promises'
import { basename, join, resolve } from 'node:path'
import { parseArgs } from 'node:util'
import { renderMany } from './many.ts'
import { testSet } from './test-set.ts'

/**
 * Renders the test set of the automatic readings:
 * `npx tsx sample-clips/renderer/make-test-set.ts --count 200 --dir DIR [--seed 1]`.
 * DIR gets the clips, their truths, and `set.json`: which is which, and which part each belongs to.
 * Clips that are there already are kept.
 */
const { values } = parseArgs({
  options: {
    count: { type: 'string', default: '200' },
    dir: { type: 'string' },
    seed: { type: 'string', default: '1' },
  },
})
const count = Number(values.count)
const seed = Number(values.seed)
if (values.dir === undefined || !Number.isInteger(count) || count < 1 || !Number.isInteger(seed)) {
  console.error('usage: make-test-set.ts --dir DIR [--count N] [--seed N]')
  process.exit(2)
}
const folder = resolve(values.dir)
await mkdir(folder, { recursive: true })
const hits = [...testSet(count, seed)]
let ready = 0
const rendered = await renderMany(
  hits.map(({ scene }) => ({ scene, folder, once: true })),
  ({ clipPath, seconds }) => console.log(`${++ready}/${count} ${basename(clipPath)} ${seconds.toFixed(1)} s`),
)
const entries = hits.map(({ scene, part, surface }, i) => ({
  name: scene.name,
  part,
  surface,
  clip: basename(rendered[i]!.clipPath),
  truth: basename(rendered[i]!.truthPath),
}))
await writeFile(join(folder, 'set.json'), `${JSON.stringify({ seed, hits: entries }, null, 1)}\n`)
