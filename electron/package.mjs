import { mkdirSync, writeFileSync } from 'node:fs'
import { readFile } from 'node:fs/promises'
import { join } from 'node:path'
import { fileURLToPath } from 'node:url'
import { Resvg } from '@resvg/resvg-js'
import { build as pack } from 'electron-builder'
import { build } from './build.mjs'
import { packaging } from './packaging.mjs'

/**
 * `npm run package`: installers for this system into out/; `-- --dir` stops at the unpacked program. Each
 * system's installer is made on that system: ffmpeg's programs and SQLite come from its own packages.
 */
const checkout = fileURLToPath(new URL('..', import.meta.url))

await build()
await drawIcons()
const made = await pack({
  projectDir: checkout,
  config: packaging(process.env),
  dir: process.argv.includes('--dir'),
})
for (const file of made) console.log(file)

/** The window's and the installers' icon, from the one drawing that the page shows too. */
async function drawIcons() {
  const drawing = await readFile(join(checkout, 'renderer', 'icon.svg'), 'utf8')
  const folder = join(checkout, 'dist', 'icons')
  mkdirSync(folder, { recursive: true })
  // A tile of its own colour behind it: a taskbar may be light or dark.
  const inside = drawing.replace(/<svg[^>]*>|<\/svg>|<title>[^<]*<\/title>|<style>[\s\S]*<\/style>/g, '')
  const tile = `<svg xmlns="http://www.w3.org/2000/svg" viewBox="-3 -3 26 26" fill="none" stroke="#20282d">
    <rect x="-3" y="-3" width="26" height="26" rx="6" fill="#f7f9fa" stroke="none"/>${inside}</svg>`
  writeFileSync(
    join(folder, 'icon.png'),
    new Resvg(tile, { fitTo: { mode: 'width', value: 1024 } }).render().asPng(),
  )
}
