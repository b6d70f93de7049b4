import type { Page } from 'playwright-core'
import { afterAll, beforeAll, expect, test } from 'vitest'
import { newHitOn } from './new-hit.ts'
import { type Opened, openedPage, patient } from './opened-page.ts'
import { flightOf } from './sample-truth.ts'

/** The smallest sample. */
const clip = 'topspin-240-c'
const flight = flightOf(clip)

let opened: Opened
let page: Page
beforeAll(async () => {
  opened = await openedPage()
  page = opened.page
})
afterAll(async () => {
  await opened?.close()
})

const rpm = async () => Number(/^\d+/.exec((await page.locator('.headline-figure').textContent()) ?? '')?.[0])
const readFrom = (on: Page) => on.locator('.read-from [role=status]')

/** Does one step of work and waits until the host has it and the page has heard so. */
async function stored(step: () => Promise<void>): Promise<void> {
  const answer = page.waitForResponse(response => response.url().includes('hits.edit'))
  await step()
  await answer
  await expect.poll(() => page.locator('.bench-line [role=status]').textContent(), patient).toBe('')
}

test('one key reads a hit, with a circle in every frame', async () => {
  await newHitOn(page, clip)

  await page.keyboard.press('i')
  await page.locator('.read-from').waitFor()
  await expect.poll(rpm, patient).toBeGreaterThan(0)
  // Half a percent: the sample shows a whole ball of 36 px radius in every frame, far below its ceiling.
  expect(Math.abs((await rpm()) / flight.rpm - 1)).toBeLessThan(0.005)
  await expect.poll(() => readFrom(page).textContent(), patient).toContain('nobody has touched it yet')
  const found = async () =>
    Number(/(\d+) found/.exec((await page.locator('.followed').textContent()) ?? '')?.[1])
  await expect.poll(found, patient).toBeGreaterThan(0.9 * (flight.lastFrame - flight.firstFrame + 1))
})

test('a circle that is put right by hand has the hit read again', async () => {
  await page.keyboard.press('r')
  await page.keyboard.press('ArrowRight')
  await page.getByText(/, 1 placed/).waitFor()
  await expect.poll(() => readFrom(page).textContent(), patient).toContain('looked at by a person')
  expect(Math.abs((await rpm()) / flight.rpm - 1)).toBeLessThan(0.005)
})

test('all balls turned back stand together, by the rate that is shown', async () => {
  const told = page.locator('.turned-back [role=status]')
  const figure = async () => (await told.textContent())!.replaceAll(/\D*frame \d+ by|\D/g, '')
  await expect.poll(figure, patient).toContain(String(await rpm()))
  await page.keyboard.press('h')
  await told.waitFor({ state: 'detached' })
  await page.keyboard.press('h')
  await told.waitFor()
})

test('a mark is proposed in every frame and accepted with one key; undo takes all of it back', async () => {
  const rows = page.locator('.bearing-plot tbody tr')
  await page.keyboard.press('m')
  await page.getByText(/is proposed in \d+ frames/).waitFor()
  await page.locator('.bearing-plot').waitFor()
  expect(await rows.count()).toBe(0)
  await page.keyboard.press('y')
  await expect.poll(() => rows.count(), patient).toBeGreaterThan(10)
  await page.keyboard.press('z')
  await expect.poll(() => rows.count(), patient).toBe(0)
  await page.keyboard.press('Shift+Z')
  await expect.poll(() => rows.count(), patient).toBeGreaterThan(10)
})

test('marks count when the person says so, and everything is stored', async () => {
  const bySurface = await rpm()
  await page.getByText('The marks do not change it.').waitFor()
  await page.getByRole('button', { name: 'Let the marks count' }).click()
  await expect.poll(() => readFrom(page).textContent(), patient).toContain('Read from the marks')
  await expect.poll(async () => Math.abs((await rpm()) / flight.rpm - 1), patient).toBeLessThan(0.01)
  // Both figures may be the same number: what is waited for is that the host has each step.
  await stored(() => page.getByRole('button', { name: 'Go back to the surface' }).click())
  await expect.poll(() => readFrom(page).textContent(), patient).toContain('looked at by a person')
  await expect.poll(rpm, patient).toBe(bySurface)
  // Until the reading is there the key would do nothing.
  const accept = page.getByRole('button', { name: 'Accept', exact: true })
  await expect.poll(() => accept.isEnabled(), patient).toBe(true)
  await stored(() => page.keyboard.press('g'))
  await page.getByText('Accepted.').waitFor()

  await page.reload()
  await page.locator('.headline-figure').waitFor()
  await expect.poll(rpm, patient).toBe(bySurface)
  await page.getByText('Accepted.').waitFor()
  await expect.poll(() => page.locator('.bearing-plot tbody tr').count(), patient).toBeGreaterThan(10)
  await expect.poll(() => page.locator('.followed').textContent(), patient).toMatch(/\d+ found, 1 placed/)
})
