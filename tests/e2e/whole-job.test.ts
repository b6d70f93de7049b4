import { existsSync, readFileSync, writeFileSync } from 'node:fs'
import { join } from 'node:path'
import type { Page } from 'playwright-core'
import initSqlJs from 'sql.js'
import { afterAll, beforeAll, expect, test } from 'vitest'
import { ballRadiusOn, nearShare } from '../../renderer/screens/bench/stage/shown-on.ts'
import { newHitOn } from './new-hit.ts'
import { type Opened, openedPage, patient } from './opened-page.ts'
import { flightOf } from './sample-truth.ts'

/** The sample that a person measures here, and what was put into it. */
const clip = 'fast-240-a'
const flight = flightOf(clip)
const { at } = flight

let opened: Opened
let page: Page
beforeAll(async () => {
  opened = await openedPage()
  page = opened.page
})
afterAll(async () => {
  await opened?.close()
})

/** Screen pixels around the ball in the middle of the bench, for a picture of 960 × 540. */
const picture = { width: 960, height: 540 }

async function stage(): Promise<{ x: number; y: number; width: number; height: number }> {
  const box = await page.locator('.ball-stage').boundingBox()
  return { ...box!, x: box!.x + box!.width / 2, y: box!.y + box!.height / 2 }
}

const frameNow = async () => Number(await page.locator('.frame-now .figure').textContent())

async function goTo(frame: number): Promise<void> {
  for (let now = await frameNow(); now !== frame; now = await frameNow()) {
    await page.keyboard.press(now < frame ? 'd' : 'a')
    await expect.poll(frameNow, patient).not.toBe(now)
  }
}

/** Three points on the rim in the frame that the bench asks for; from the whole picture if it shows that. */
async function placeRim(): Promise<void> {
  await page.locator('.ball-stage[data-shows="whole"]').waitFor()
  const frame = at(await frameNow())
  const { x, y, width, height } = await stage()
  const whole = Math.min(width / picture.width, height / picture.height)
  await page.mouse.click(
    x + (frame.xPx - picture.width / 2) * whole,
    y + (frame.yPx - picture.height / 2) * whole,
  )
  await page.locator('.ball-stage[data-shows="near"]').waitFor()
  // The close look takes the ball for a tenth of the picture's height, and shows it smaller than usual.
  const scale = (nearShare * ballRadiusOn({ width, height })) / (picture.height / 10)
  for (const deg of [20, 140, 260]) {
    const angle = (deg * Math.PI) / 180
    const reach = frame.radiusPx * scale
    await page.mouse.click(x + reach * Math.cos(angle), y + reach * Math.sin(angle))
  }
}

/** Clicks the mark, or says that it is hidden; the place is measured from the circle that the bench draws. */
async function placeMark(): Promise<void> {
  const index = await frameNow()
  const frame = at(index)
  const logo = frame.marks.logo!
  if (logo.visible) {
    const ring = (await page.locator('.outline-line').boundingBox())!
    const scale = ring.width / 2 / frame.radiusPx
    await page.mouse.click(
      ring.x + ring.width / 2 + (logo.xPx - frame.xPx) * scale,
      ring.y + ring.height / 2 + (logo.yPx - frame.yPx) * scale,
    )
  } else await page.keyboard.press('x')
  await expect.poll(frameNow, patient).not.toBe(index)
}

/** The reading as it stands there now. */
async function headline(): Promise<{ rpm: number; half: number }> {
  const words = (await page.locator('.headline-figure').textContent())!.replaceAll('\u00a0', ' ')
  const [, rpm, half] = /^(\d+) ?± ?(\d+)/.exec(words) ?? []
  return { rpm: Number(rpm), half: Number(half) }
}

test('a clip is opened, its window, outline and twelve marks given, the reading holds the truth', async () => {
  await newHitOn(page, clip)
  await goTo(flight.firstFrame)
  await page.keyboard.press('c')
  await goTo(flight.firstFrame + 12)
  await page.keyboard.press('v')
  await goTo(flight.firstFrame)
  await placeRim()
  await expect.poll(frameNow, patient).toBe(flight.firstFrame + 12)
  await placeRim()
  // Between two placed circles the bench proposes the third.
  await page.getByRole('button', { name: 'Keep the circle' }).click()
  await expect.poll(frameNow, patient).toBe(flight.firstFrame)
  for (let mark = 0; mark < 12; mark++) await placeMark()

  // Twelve frames at 2296 rpm are two turns counted: the fit must be much the tighter of the two.
  await expect.poll(async () => (await headline()).half, patient).toBeLessThan(60)
  const { rpm, half } = await headline()
  expect(Math.abs(rpm - flight.rpm)).toBeLessThan(half)
})

test('undo takes the last mark off and redo puts it back', async () => {
  const rows = page.locator('.bearing-plot tbody tr')
  const marked = await rows.count()
  await page.keyboard.press('z')
  await expect.poll(() => rows.count(), patient).toBe(marked - 1)
  await page.keyboard.press('Shift+Z')
  await expect.poll(() => rows.count(), patient).toBe(marked)
})

/** A person's own table, as they kept it before anything was filmed here. */
const mine = 'Paddle,Spin (rpm),Swing weight\r\nFennick 14,,113.5\r\nHarrow 12,1900,121\r\n'

test('the accepted hit gives a paddle of the person’s table its place', async () => {
  await page.keyboard.press('g')
  await page.getByText('Accepted.').waitFor()
  const sheet = join(opened.served.folder, 'my paddles.csv')
  writeFileSync(sheet, mine)
  await page.getByRole('link', { name: 'Database', exact: true }).click()
  await page.getByRole('button', { name: 'Tables in' }).click()
  await page.getByLabel('Read from').fill(sheet)
  await page.getByRole('button', { name: 'Preview' }).click()
  await page.getByRole('button', { name: /^Bring in 2.rows$/ }).click()
  await page.getByRole('status').getByText('Brought in').waitFor()
  await page.getByRole('link', { name: 'Paddles', exact: true }).click()
  const row = page.locator('.row-grid-row').filter({ hasText: 'Fennick 14' })
  const cells = async () => (await row.textContent())!.replaceAll('\u00a0', ' ')
  await row.waitFor()
  expect(await cells()).not.toContain('±')

  await page.getByRole('link', { name: 'Sessions', exact: true }).click()
  await page.locator('.session-line').first().click()
  const paddleOfHit = page.getByLabel('Paddle of hit 1')
  const fennick = paddleOfHit.locator('option').filter({ hasText: 'Fennick 14' })
  await paddleOfHit.selectOption((await fennick.first().getAttribute('value'))!)
  await expect.poll(() => paddleOfHit.locator('option:checked').textContent(), patient).toContain('Fennick')
  await page.getByRole('link', { name: 'Paddles', exact: true }).click()
  await expect.poll(cells, patient).toMatch(/Fennick 14.*\d ± \d/)
  expect(await row.locator('[data-column=rank]').textContent()).toMatch(/^1\b/)
})

test('its figure goes into a ratings database that another driver reads, and is taken back', async () => {
  const target = join(opened.served.folder, 'ratings.sqlite')
  await page.getByRole('link', { name: 'Database', exact: true }).click()
  await page.getByLabel('Write to').fill(target)
  await page.getByRole('button', { name: 'Preview' }).click()
  await page.getByRole('button', { name: /^Write \d/ }).click()
  await expect.poll(() => existsSync(target), patient).toBe(true)
  await page.getByRole('status').getByText('Written:').waitFor()

  const sql = await initSqlJs()
  const rows = new sql.Database(readFileSync(target)).exec('SELECT * FROM whorl_spin')
  const row = Object.fromEntries(rows[0]!.columns.map((name, i) => [name, rows[0]!.values[0]![i]]))
  expect(rows[0]!.values).toHaveLength(1)
  expect(row.paddle).toBe('Fennick 14')
  expect(Math.abs(Number(row.mean_rpm) - flight.rpm)).toBeLessThan(60)

  await page.getByRole('button', { name: 'History' }).click()
  const line = page.getByRole('row').filter({ hasText: target }).filter({ hasText: 'Written' })
  await line.getByRole('button', { name: 'Take back' }).click()
  await line.getByText('taken back').waitFor()
  expect(existsSync(target)).toBe(false)
})
