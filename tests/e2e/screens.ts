import type { Browser, Page } from 'playwright-core'
import { type Served, serve, whorl } from './served.ts'

export type Theme = 'light' | 'dark'
export type Size = { width: number; height: number }

/** The program on a freshly filled demo workspace, looked at with one browser page a theme and size. */
export class DemoInBrowser {
  private constructor(
    readonly served: Served,
    private readonly browser: Browser,
  ) {}

  static async open(browser: Browser, folder: string): Promise<DemoInBrowser> {
    const made = await whorl('demo', '--dir', folder, '--no-open')
    if (made.code !== 0) throw new Error(`whorl demo failed: ${made.error}`)
    return new DemoInBrowser(await serve(folder), browser)
  }

  async page(theme: Theme, viewport: Size): Promise<Page> {
    const context = await this.browser.newContext({ viewport, colorScheme: theme, reducedMotion: 'reduce' })
    const page = await context.newPage()
    page.setDefaultTimeout(120_000)
    await page.goto(this.served.address)
    await page.getByRole('heading', { name: 'Sessions' }).waitFor()
    return page
  }
}

/** Each screen by name, and how a person gets there from the page's first sight. */
export const screens: Record<string, (page: Page) => Promise<void>> = {
  sessions: async page => {
    await page.getByRole('link', { name: 'Sessions' }).first().click()
    await page.locator('.sessions-list > li').first().waitFor()
    await pictured(page)
  },
  readings: async page => {
    await page.getByRole('link', { name: 'Readings' }).click()
    await rowOf(page, 'fast-240-a.mp4').waitFor()
  },
  bench: async page => {
    await page.getByRole('link', { name: 'Readings' }).click()
    await rowOf(page, 'fast-240-a.mp4').click()
    await page
      .getByRole('link', { name: /bench/i })
      .or(page.getByRole('button', { name: /bench/i }))
      .first()
      .click()
    await page.locator('.ball-stage[data-shows="ball"]').waitFor()
    await page.locator('.bearing-plot tbody tr').first().waitFor({ state: 'attached' })
    await pictured(page)
  },
  'balls turned back': async page => {
    await page.getByRole('button', { name: 'Turn the balls back' }).click()
    await page.locator('.turned-back').waitFor()
    await pictured(page)
  },
  plan: async page => {
    await page.getByRole('link', { name: 'Plan', exact: true }).click()
    await page.locator('.foreseen-plot-curve').nth(3).waitFor()
  },
  cameras: async page => {
    await page.getByRole('link', { name: 'Cameras', exact: true }).click()
    await page.getByRole('heading', { name: 'Cameras' }).waitFor()
    if ((await page.locator('.cameras nav li').count()) === 0) {
      await page.getByRole('button', { name: 'New camera' }).click()
      await page.getByLabel('Name', { exact: true }).fill('Phone, slow motion')
      await page.getByLabel('Set to').fill('240')
      await page.getByRole('button', { name: 'Keep camera' }).click()
    }
    await page.getByRole('button', { name: 'Check it' }).first().click()
    await page.locator('.check-drawing').waitFor()
  },
  paddles: async page => {
    await page.getByRole('link', { name: 'Paddles' }).first().click()
    await page.locator('.row-grid-row').first().waitFor()
    await page.locator('.paddles-rank-band').first().waitFor()
  },
  'paddles, placed': async page => {
    await page.getByRole('button', { name: 'Percentiles, tiers, reference' }).click()
    await page.getByRole('form', { name: 'Percentiles, tiers, reference' }).waitFor()
  },
  compare: async page => {
    await page.getByRole('button', { name: 'Cancel' }).click()
    for (const name of ['Compare Ostrel 13, stock', 'Compare Ostrel 16, stock']) {
      await page.getByRole('searchbox').fill(name.slice('Compare '.length).replace(',', ''))
      await page.getByRole('checkbox', { name }).check()
    }
    await page.getByRole('link', { name: 'Compare', exact: true }).click()
    await page.getByRole('heading', { name: 'Differences' }).waitFor()
  },
  paddle: async page => {
    await page.getByRole('link', { name: 'Ostrel 16', exact: true }).click()
    await page.getByRole('heading', { name: 'Hits' }).waitFor()
    await page.getByText('may truly be').first().waitFor()
  },
  publish: async page => {
    await page.getByRole('link', { name: 'Publish', exact: true }).click()
    await page.getByLabel('Shows', { exact: true }).selectOption({ label: 'A paddle' })
    await page.getByRole('img', { name: 'Hits as dots', exact: true }).waitFor()
  },
  database: async page => {
    await page.getByRole('link', { name: 'Database' }).click()
    await page.getByRole('button', { name: 'ratings.sqlite', exact: true }).click()
    await page.getByText('Ostrel').first().waitFor()
  },
}

/** A narrow table leaves out the clip's name, which is in the page all the same. */
const rowOf = (page: Page, words: string) => page.locator('.row-grid-row', { hasText: words }).first()

/** Until nothing more is being painted: frames arrive one by one. */
async function pictured(page: Page): Promise<void> {
  await page.waitForLoadState('networkidle').catch(() => {})
  await page.waitForTimeout(1500)
}
