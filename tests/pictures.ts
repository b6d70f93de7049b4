import { mkdirSync, mkdtempSync, readFileSync } from 'node:fs'
import { tmpdir } from 'node:os'
import { join } from 'node:path'
import { launchChromium } from './e2e/chromium.ts'
import { DemoInBrowser, type Size, screens, type Theme } from './e2e/screens.ts'
import { root, whorl } from './e2e/served.ts'

/**
 * `npm run pictures`: takes the README's pictures from the running program on the demo workspace. Other
 * words: a folder, a width and a height (`-- /tmp/look 1920 1080`); every screen goes there then.
 */
const [elsewhere, width = '1280', height = '720'] = process.argv.slice(2)
const folder = elsewhere ?? join(root, 'renderer/pictures')
const readme = readFileSync(join(root, 'README.md'), 'utf8')
const size: Size = { width: Number(width), height: Number(height) }
mkdirSync(folder, { recursive: true })
const browser = await launchChromium()
const demo = await DemoInBrowser.open(browser, mkdtempSync(join(tmpdir(), 'whorl-pictures-')))
/** What it makes, beside what it looks like. */
const made: [file: string, words: string[]][] = [
  ['published-turned-back.png', ['turned-back', 'topspin-240-a.mp4', '--size', '900x280']],
  ['published-hits.png', ['hits', '--session', '2026-05-16', '--size', '900x480']],
]
try {
  for (const [file, words] of made) {
    const workspace = join(demo.served.folder, 'workspace.sqlite')
    const said = await whorl('picture', ...words, '--to', join(folder, file), '--workspace', workspace)
    if (said.code !== 0) throw new Error(said.error)
  }
  for (const theme of ['light', 'dark'] satisfies Theme[]) {
    const page = await demo.page(theme, size)
    for (const [name, goThere] of Object.entries(screens)) {
      await goThere(page)
      const file = `${name.replaceAll(/\W+/g, '-')}-${theme}.png`
      if (!elsewhere && !readme.includes(`renderer/pictures/${file}`)) continue
      // The strip fills frame by frame.
      await page.waitForTimeout(3000)
      await page.screenshot({ path: join(folder, file) })
    }
    await page.context().close()
  }
} finally {
  await browser.close()
  await demo.served.stop()
}
