import { mkdtempSync } from 'node:fs'
import { tmpdir } from 'node:os'
import { join } from 'node:path'
import AxeBuilder from '@axe-core/playwright'
import type { Browser, Page } from 'playwright-core'
import { afterAll, beforeAll, expect, test } from 'vitest'
import { launchChromium } from './chromium.ts'
import { flightsOf, type TruthFlight, type TruthFrame } from './sample-truth.ts'
import { DemoInBrowser } from './screens.ts'

let browser: Browser
let demo: DemoInBrowser
let page: Page
beforeAll(async () => {
  browser = await launchChromium()
  demo = await DemoInBrowser.open(browser, mkdtempSync(join(tmpdir(), 'whorl-study-')))
  page = await demo.page('light', { width: 1280, height: 720 })
})
afterAll(async () => {
  await browser?.close()
  await demo?.served.stop()
})

const marks = 10
/** How far the second click is put from the first, px of the picture, to the right and to the left in turn. */
const apartPx = 3

const stageOf = (of: Page) => of.locator('.study-stage .ball-stage')
type View = { name: string; xPx: number; yPx: number; scale: number }
const viewOf = async (): Promise<View> => {
  const stage = stageOf(page)
  await expect.poll(() => stage.getAttribute('data-ready')).toBe('true')
  return stage.evaluate((at: HTMLElement) => ({
    name: at.getAttribute('aria-label')!,
    xPx: Number(at.dataset.xPx),
    yPx: Number(at.dataset.yPx),
    scale: Number(at.dataset.scale),
  }))
}

/** Where the mark truly is in the frame whose ball lies there: the page says neither clip nor frame. */
function truthAt(flights: TruthFlight[], { name, xPx, yPx }: View): TruthFrame['marks'][string] {
  const frames = flights.flatMap(flight => flight.frames)
  const away = (frame: TruthFrame) => Math.hypot(frame.xPx - xPx, frame.yPx - yPx)
  const frame = frames.reduce((best, each) => (away(each) < away(best) ? each : best))
  return frame.marks[name.split('the ').at(-1)!]!
}

test('ten marks clicked twice, blind, give the click error that was put in, and the session takes it', async () => {
  await page.locator('.session-line').first().click()
  await page.locator('.session[data-open=true] .clip-name').first().waitFor()
  const clips = await page.locator('.session[data-open=true] .clip-name').allTextContents()
  const flights = clips.flatMap(clip => flightsOf(clip.replace(/\.\w+$/, '')))
  await page.getByRole('link', { name: 'Marking study' }).click()
  await page.getByLabel('Who marks').fill('Ada')
  await page.getByLabel(/^Marks/).fill(String(marks))
  await page.getByRole('button', { name: 'Begin' }).click()

  const clicked = new Map<string, number>()
  for (let place = 0; place < 2 * marks; place++) {
    await page.getByText(`${place + 1} of ${2 * marks}`).waitFor()
    const view = await viewOf()
    const at = truthAt(flights, view)
    const key = `${at.xPx} ${at.yPx}`
    const before = clicked.get(key)
    const side = before === undefined ? 0 : apartPx * (before % 2 === 0 ? 1 : -1)
    clicked.set(key, before ?? clicked.size)
    // The first by keys, the others by the mouse.
    if (place === 0) {
      await page.keyboard.press('ArrowRight')
      await page.keyboard.press('ArrowRight')
      await page.locator('.study-stage .crosshair path').first().waitFor({ state: 'attached' })
      await page.keyboard.press('Enter')
      await page.getByText(`2 of ${2 * marks}`).waitFor()
      await page.keyboard.press('Backspace')
      await page.getByText(`1 of ${2 * marks}`).waitFor()
      await viewOf()
    }
    const box = (await stageOf(page).boundingBox())!
    await page.mouse.click(
      box.x + box.width / 2 + (at.xPx + side - view.xPx) * view.scale,
      box.y + box.height / 2 + (at.yPx - view.yPx) * view.scale,
    )
  }

  // Along x s_r² = Σd²/2n = 3²/2 px², along y 0: one coordinate's is their mean, 1.5² px².
  const person = page.locator('.study-person')
  await expect.poll(() => person.locator('.study-figure').textContent()).toMatch(/^1\.5\d?\spx$/)
  expect(await person.textContent()).toMatch(/10\ssecond clicks on 10\smarks/)
  const { violations } = await new AxeBuilder({ page }).analyze()
  expect(violations.filter(({ impact }) => impact === 'serious' || impact === 'critical')).toEqual([])
  await person.getByRole('button', { name: /^Use 1\.5/ }).click()
  await page.getByText('is this session’s own click error now').waitFor()
})
