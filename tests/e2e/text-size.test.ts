import type { Browser, Page } from 'playwright-core'
import { afterAll, beforeAll, expect, test } from 'vitest'
import { launchChromium } from './chromium.ts'
import { type Served, serve } from './served.ts'

let served: Served
let browser: Browser
beforeAll(async () => {
  served = await serve()
  browser = await launchChromium()
})
afterAll(async () => {
  await browser?.close()
  await served?.stop()
})

async function opened(viewport: { width: number; height: number }): Promise<Page> {
  const page = await browser.newPage({ viewport, reducedMotion: 'reduce' })
  page.setDefaultTimeout(120_000)
  await page.goto(served.address)
  await page.getByRole('link', { name: 'Plan', exact: true }).waitFor()
  return page
}
const places = ['Plan', 'Sessions', 'Readings', 'Paddles', 'Database']

/** Controls that no scrolling brings into view, or that something else lies over. */
const outOfReach = (page: Page) =>
  page.evaluate(() =>
    [...document.querySelectorAll('button, a, input, select, textarea, summary')]
      .filter(control => control.checkVisibility() && control.getBoundingClientRect().width > 1)
      .filter(control => {
        control.scrollIntoView({ block: 'nearest', inline: 'nearest' })
        const box = control.getBoundingClientRect()
        const [x, y] = [box.x + box.width / 2, box.y + box.height / 2]
        const there = document.elementFromPoint(x, y)
        return !there || !(control.contains(there) || there.contains(control))
      })
      .map(control => control.textContent || control.getAttribute('aria-label')),
  )

// WCAG 2.2, 1.4.4: text to 200 % without loss of content or function; browser zoom halves the window.
test.each([
  ['letters of twice the size', { width: 1280, height: 720 }, '200%'],
  ['a page zoomed to 200 %', { width: 960, height: 540 }, '100%'],
])('%s leave every control within reach, and nothing scrolls sideways', async (_, viewport, fontSize) => {
  const page = await opened(viewport)
  await page.evaluate(size => {
    document.documentElement.style.fontSize = size
  }, fontSize)
  for (const place of places) {
    await page.getByRole('link', { name: place, exact: true }).click()
    await page.waitForFunction(word => document.title.startsWith(word), place)
    expect(await outOfReach(page), place).toEqual([])
    const overflow = await page.evaluate(() => document.documentElement.scrollWidth - window.innerWidth)
    expect(overflow, place).toBeLessThanOrEqual(0)
  }
  await page.close()
})

test('nothing moves for those who asked for stillness', async () => {
  const page = await opened({ width: 1280, height: 720 })
  for (const place of places) {
    await page.getByRole('link', { name: place, exact: true }).click()
    await page.waitForFunction(word => document.title.startsWith(word), place)
    // A millisecond is no movement: it lets a progress line appear late.
    const moving = await page.evaluate(
      shortest =>
        [...document.querySelectorAll('*')]
          .filter(element => {
            const { transitionDuration, animationName, animationDuration } = getComputedStyle(element)
            const lasts = (durations: string) =>
              durations.split(', ').some(each => Number.parseFloat(each) > shortest)
            return lasts(transitionDuration) || (animationName !== 'none' && lasts(animationDuration))
          })
          .map(element => element.className),
      0.001,
    )
    expect(moving, place).toEqual([])
  }
  await page.close()
})
