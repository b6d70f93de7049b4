import { writeFile } from 'node:fs/promises'
import { join } from 'node:path'
import { fileURLToPath } from 'node:url'
import { cases } from './cases.ts'
import { clicksOf } from './clicks.ts'
import { renderMany } from './many.ts'
import { truthOf } from './truth.ts'

/** Makes the sample clips anew, or only those named: `npm run samples -- topspin-240-a`. */
const folder = fileURLToPath(new URL('..', import.meta.url))
const names = process.argv.slice(2)
const chosen = cases.filter(({ scene }) => names.length === 0 || names.includes(scene.name))

for (const { scene, clicks } of chosen) {
  const marks = clicksOf(truthOf(scene), clicks)
  await writeFile(join(folder, `${scene.name}.clicks.json`), `${JSON.stringify(marks, null, 1)}\n`)
}
const orders = chosen.map(({ scene }) => ({ scene, folder, once: false }))
await renderMany(orders, ({ clipPath, seconds }) => console.log(`${clipPath}: ${seconds.toFixed(1)} s`))
