import { spawnSync } from 'node:child_process'
import { createRequire } from 'node:module'
import { dirname, join } from 'node:path'
import { findChromium } from './e2e/chromium.ts'

/** `npm test`: makes sure that a browser is there, then runs every test. Extra words go to vitest. */
try {
  await findChromium(line => console.log(line))
} catch (error) {
  console.error(error instanceof Error ? error.message : error)
  process.exit(1)
}
const vitest = join(dirname(createRequire(import.meta.url).resolve('vitest/package.json')), 'vitest.mjs')
const words = ['run', '--config', 'tests/vitest.config.ts', ...process.argv.slice(2)]
process.exit(spawnSync(process.execPath, [vitest, ...words], { stdio: 'inherit' }).status ?? 1)
