import { mkdtempSync } from 'node:fs'
import { tmpdir } from 'node:os'
import { join } from 'node:path'
import AxeBuilder from '@axe-core/playwright'
import type { Browser } from 'playwright-core'
import { afterAll, beforeAll, expect, test } from 'vitest'
import { launchChromium } from './chromium.ts'
import { DemoInBrowser, screens, type Theme } from './screens.ts'

let browser: Browser
let demo: DemoInBrowser
beforeAll(async () => {
  browser = await launchChromium()
  demo = await DemoInBrowser.open(browser, mkdtempSync(join(tmpdir(), 'whorl-screens-')))
})
afterAll(async () => {
  await browser?.close()
  await demo?.served.stop()
})

test.each<Theme>(['light', 'dark'])(
  'no screen has a serious accessibility fault, nor scrolls sideways (%s)',
  async theme => {
    const page = await demo.page(theme, { width: 1280, height: 720 })
    const troubles: string[] = []
    page.on('pageerror', error => troubles.push(error.message))
    page.on('console', message => message.type() === 'error' && troubles.push(message.text()))
    for (const [name, goThere] of Object.entries(screens)) {
      await goThere(page)
      const look = new AxeBuilder({ page })
      // The dark theme is the same page in other colours.
      const { violations } = await (theme === 'dark' ? look.withRules('color-contrast') : look).analyze()
      const serious = violations.filter(each => each.impact === 'serious' || each.impact === 'critical')
      expect(serious.map(each => `${name}: ${each.id} at ${each.nodes[0]?.target}`)).toEqual([])
      const overflow = await page.evaluate(() => document.documentElement.scrollWidth - window.innerWidth)
      expect(overflow, name).toBeLessThanOrEqual(0)
    }
    expect(troubles).toEqual([])
    await page.context().close()
  },
)
