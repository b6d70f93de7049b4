import { mkdtempSync } from 'node:fs'
import { tmpdir } from 'node:os'
import { join } from 'node:path'
import type { Browser, Page } from 'playwright-core'
import { afterAll, beforeAll, expect, test } from 'vitest'
import { launchChromium } from './chromium.ts'
import { DemoInBrowser, screens } from './screens.ts'
import { type Served, serve } from './served.ts'

let served: Served
let demo: DemoInBrowser
let browser: Browser
beforeAll(async () => {
  served = await serve()
  browser = await launchChromium()
  demo = await DemoInBrowser.open(browser, mkdtempSync(join(tmpdir(), 'whorl-large-')))
})
afterAll(async () => {
  await browser?.close()
  await served?.stop()
  await demo?.served.stop()
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

/** Words that end beyond the window where nothing scrolls sideways to them. */
const cutOff = (page: Page) =>
  page.evaluate(() => {
    const scrolls = (element: Element | null): boolean =>
      element !== null &&
      !element.matches('main') &&
      (['auto', 'scroll'].includes(getComputedStyle(element).overflowX) || scrolls(element.parentElement))
    return [...document.querySelectorAll('main *')]
      .filter(element => element.checkVisibility() && element.closest('.unseen, svg') === null)
      .filter(element =>
        [...element.childNodes].some(node => node.nodeType === 3 && node.textContent?.trim()),
      )
      .filter(element => {
        const words = document.createRange()
        words.selectNodeContents(element)
        return words.getBoundingClientRect().right > window.innerWidth + 1 && !scrolls(element)
      })
      .map(element => element.textContent)
  })

/** What is beyond the window's side or out of reach on a page, by name. */
async function troublesOf(page: Page, name: string): Promise<string[]> {
  const beyond = await page.evaluate(() =>
    Math.max(...['html', 'main'].map(part => document.querySelector(part)!.scrollWidth - window.innerWidth)),
  )
  const hidden = (await outOfReach(page)).map(control => `${name}: ${control} is out of reach`)
  const cut = (await cutOff(page)).map(words => `${name}: “${words}” is cut off`)
  hidden.push(...cut)
  return beyond > 0 ? [`${name}: ${beyond} px beyond the window`, ...hidden] : hidden
}

// WCAG 2.2, 1.4.4: text to 200 % without loss of content or function; browser zoom halves the window.
const sizes = [
  { what: 'letters of twice the size', viewport: { width: 1280, height: 720 }, fontSize: '200%' },
  { what: 'a page zoomed to 200 %', viewport: { width: 960, height: 540 }, fontSize: '100%' },
]
const enlarge = (page: Page, size: string) =>
  page.evaluate(to => {
    document.documentElement.style.fontSize = to
  }, size)

test.each(sizes)(
  '$what leave every control of an empty workspace within reach, and nothing scrolls sideways',
  async ({ viewport, fontSize }) => {
    const page = await opened(viewport)
    await enlarge(page, fontSize)
    for (const place of places) {
      await page.getByRole('link', { name: place, exact: true }).click()
      await page.waitForFunction(word => document.title.startsWith(word), place)
      expect(await troublesOf(page, place)).toEqual([])
    }
    await page.close()
  },
)

test.each(sizes)(
  '$what leave every control of a filled workspace within reach, and nothing scrolls sideways',
  async ({ viewport, fontSize }) => {
    const page = await demo.page('light', viewport)
    await enlarge(page, fontSize)
    const troubles: string[] = []
    for (const [name, goThere] of Object.entries(screens)) {
      await goThere(page)
      troubles.push(...(await troublesOf(page, name)))
    }
    expect(troubles).toEqual([])
    await page.context().close()
  },
)

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
