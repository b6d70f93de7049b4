import type { Browser, Page } from 'playwright-core'
import { launchChromium } from './chromium.ts'
import { type Served, serve } from './served.ts'

/** A machine at work on other things answers late; that is no fault here. */
export const patient = { timeout: 120_000 }

/** The program on an empty workspace, and a page of a still window that looks at it. */
export type Opened = { served: Served; browser: Browser; page: Page; close(): Promise<void> }

export async function openedPage(): Promise<Opened> {
  const served = await serve()
  const browser = await launchChromium().catch(async thrown => {
    await served.stop()
    throw thrown
  })
  const page = await browser.newPage({ viewport: { width: 1280, height: 720 }, reducedMotion: 'reduce' })
  page.setDefaultTimeout(patient.timeout)
  await page.goto(served.address)
  return {
    served,
    browser,
    page,
    close: async () => {
      await browser.close()
      await served.stop()
    },
  }
}
