import { existsSync, readFileSync } from 'node:fs'
import { join } from 'node:path'
import type { Locator, Page } from 'playwright-core'
import initSqlJs from 'sql.js'
import { afterAll, beforeAll, expect, test } from 'vitest'
import { type Opened, openedPage, patient } from './opened-page.ts'
import { flightOf } from './sample-truth.ts'

/** The sample that is measured here without a mouse, and what was put into it. */
const clip = 'fast-240-a'
const flight = flightOf(clip)
const { at } = flight
const marks = 12

let opened: Opened
let page: Page
beforeAll(async () => {
  opened = await openedPage()
  page = opened.page
  // Whoever takes the mouse after all is found out.
  await page.evaluate(() => {
    for (const kind of ['pointerdown', 'mousedown', 'wheel'])
      document.addEventListener(kind, () => document.documentElement.setAttribute('data-mouse', kind), true)
  })
})
afterAll(async () => {
  await opened?.close()
})

/** What has the focus: its words, and whether an eye finds it (WCAG 2.2, 2.4.7 and 2.4.11). */
const focus = () =>
  page.evaluate(() => {
    const at = document.activeElement
    if (!at || at === document.body) return null
    const { outlineStyle, outlineWidth, outlineColor } = getComputedStyle(at)
    const box = at.getBoundingClientRect()
    const seen = document.elementFromPoint(box.x + box.width / 2, box.y + box.height / 2)
    return {
      words: `${at.tagName} ${at.getAttribute('aria-label') ?? at.textContent?.trim().slice(0, 40)}`,
      outlined:
        outlineStyle !== 'none' && Number.parseFloat(outlineWidth) >= 2 && !/, 0\)$/.test(outlineColor),
      inView: box.bottom > 0 && box.right > 0 && box.top < innerHeight && box.left < innerWidth,
      covered: seen !== null && seen !== at && !at.contains(seen) && !seen.contains(at),
    }
  })

/** Goes on by Tab until the wanted thing has the focus; every stop on the way must be seen to have it. */
async function tabTo(wanted: Locator): Promise<void> {
  await wanted.waitFor({ state: 'attached' })
  for (let stop = 0; stop < 200; stop++) {
    await page.keyboard.press('Tab')
    const here = await focus()
    if (here) expect(here).toMatchObject({ outlined: true, inView: true, covered: false })
    if (await wanted.evaluate(element => element === document.activeElement)) return
  }
  throw new Error(`Tab never came to ${wanted}; it stands on ${JSON.stringify(await focus())}`)
}
async function press(wanted: Locator, key = 'Enter'): Promise<void> {
  await tabTo(wanted)
  await page.keyboard.press(key)
}
async function type(wanted: Locator, words: string): Promise<void> {
  await tabTo(wanted)
  await page.keyboard.press('Control+a')
  await page.keyboard.type(words)
}

const button = (name: string | RegExp) => page.getByRole('button', { name, exact: typeof name === 'string' })
const frameNow = async () => Number(await page.locator('.frame-now .figure').textContent())
const headline = async () => (await page.locator('.headline-figure').textContent())!.replaceAll('\u00a0', ' ')

async function goTo(frame: number): Promise<void> {
  for (let now = await frameNow(); now !== frame; now = await frameNow()) {
    const apart = frame - now
    await page.keyboard.press(`${Math.abs(apart) >= 5 ? 'Shift+' : ''}${apart > 0 ? 'd' : 'a'}`)
    await expect.poll(frameNow, patient).not.toBe(now)
  }
}

/** Brings the crosshair from one point of the picture to another: ten steps at once, then single ones. */
async function moveBy(dxPx: number, dyPx: number, stepPx: number): Promise<void> {
  for (const [px, on, back] of [
    [dxPx, 'ArrowRight', 'ArrowLeft'],
    [dyPx, 'ArrowDown', 'ArrowUp'],
  ] as const) {
    const steps = Math.round(Math.abs(px) / stepPx)
    const key = px > 0 ? on : back
    for (let far = 0; far < Math.floor(steps / 10); far++) await page.keyboard.press(`Shift+${key}`)
    for (let near = 0; near < steps % 10; near++) await page.keyboard.press(key)
  }
}

const stage = () => page.locator('.ball-stage')
/** Where the crosshair stands, in pixels of the picture: the test aims by what it sees, as a person does. */
async function crosshair(): Promise<{ xPx: number; yPx: number }> {
  const box = (await page.locator('.crosshair > path:not(.rim-point)').last().boundingBox())!
  const around = (await stage().boundingBox())!
  const [x, y, scale] = await stage().evaluate((el: HTMLElement) =>
    [el.dataset.xPx, el.dataset.yPx, el.dataset.scale].map(Number),
  )
  return {
    xPx: x! + (box.x + box.width / 2 - around.x - around.width / 2) / scale!,
    yPx: y! + (box.y + box.height / 2 - around.y - around.height / 2) / scale!,
  }
}
async function aimAt({ xPx, yPx }: { xPx: number; yPx: number }, stepPx: number): Promise<void> {
  // The first press shows the crosshair.
  await page.keyboard.press('ArrowRight')
  const from = await crosshair()
  await moveBy(xPx - from.xPx, yPx - from.yPx, stepPx)
}

const shows = async (kind: string) => {
  await expect.poll(() => stage().getAttribute('data-shows'), patient).toBe(kind)
}
/** On the whole picture one press is 1/200 of its width; close up, half a pixel. */
const [wholeStepPx, stepPx] = [960 / 200, 0.5]

async function placeRim(): Promise<void> {
  const frame = at(await frameNow())
  await shows('whole')
  await aimAt(frame, wholeStepPx)
  await page.keyboard.press('Enter')
  await shows('near')
  for (const deg of [20, 140, 260]) {
    const angle = (deg * Math.PI) / 180
    const rim = {
      xPx: frame.xPx + frame.radiusPx * Math.cos(angle),
      yPx: frame.yPx + frame.radiusPx * Math.sin(angle),
    }
    await aimAt(rim, stepPx)
    await page.keyboard.press('Enter')
  }
}

async function placeMark(): Promise<void> {
  const index = await frameNow()
  const { logo } = at(index).marks
  if (logo!.visible) {
    await aimAt(logo!, stepPx)
    await page.keyboard.press('Enter')
  } else await page.keyboard.press('x')
  await expect.poll(frameNow, patient).not.toBe(index)
}

test('a clip is opened, its outline and twelve marks placed, and the reading holds the truth', async () => {
  await press(button('Choose clips…'))
  await press(button('sample-clips/'))
  await press(page.getByLabel(`${clip}.mp4`), 'Space')
  await press(button('Choose 1 clip'))
  await type(page.getByLabel('Place', { exact: true }), 'Hall with the long bench')
  await type(page.getByLabel('Capture rate'), '240')
  await type(page.getByLabel('Exposure'), '1/2000')
  await press(button('Keep session'))
  await press(page.locator('.clip-line', { hasText: `${clip}.mp4` }))
  await press(button('New hit here'))

  await shows('whole')
  await goTo(flight.firstFrame + marks)
  await page.keyboard.press('v')
  await goTo(flight.firstFrame)
  await page.keyboard.press('c')
  await tabTo(stage())
  await placeRim()
  await expect.poll(frameNow, patient).toBe(flight.firstFrame + marks)
  await placeRim()
  // Between two placed circles the bench proposes the third; Enter keeps it.
  await shows('ball')
  await page.keyboard.press('Enter')
  await expect.poll(frameNow, patient).toBe(flight.firstFrame)
  for (let mark = 0; mark < marks; mark++) await placeMark()

  await expect.poll(headline, patient).toMatch(/^\d+ ?± ?\d+/)
  const [, rpm, half] = /^(\d+) ?± ?(\d+)/.exec(await headline())!.map(Number)
  expect(Math.abs(rpm! - flight.rpm)).toBeLessThan(half!)
  expect(half).toBeLessThan(60)
})

test('the reading is accepted, given a paddle, previewed and written', async () => {
  await page.keyboard.press('g')
  await page.getByText('Accepted.').waitFor()
  await page.keyboard.press('Shift+S')
  await press(page.locator('.session-line').first())
  await tabTo(page.getByLabel('Paddle of hit 1'))
  await page.keyboard.press('End')
  await page.getByLabel('Paddle', { exact: true }).waitFor()
  await page.keyboard.type('Fennick 14')
  await page.keyboard.press('Enter')
  await expect
    .poll(() => page.getByLabel('Paddle of hit 1').locator('option:checked').textContent(), patient)
    .toContain('Fennick 14')

  const target = join(opened.served.folder, 'ratings.sqlite')
  await page.keyboard.press('Shift+E')
  await type(page.getByLabel('Write to'), target)
  await press(button('Preview'))
  await page.getByRole('rowheader', { name: 'To add' }).waitFor()
  await press(button(/^Write \d/))
  await page.getByRole('status').getByText('Written:').waitFor()
  expect(existsSync(target)).toBe(true)
  const sql = await initSqlJs()
  const [rows] = new sql.Database(readFileSync(target)).exec('SELECT paddle, mean_rpm FROM whorl_spin')
  expect(rows!.values).toHaveLength(1)
  expect(rows!.values[0]![0]).toBe('Fennick 14')
  expect(Math.abs(Number(rows!.values[0]![1]) - flight.rpm)).toBeLessThan(60)
})

test('no pointer was used', async () => {
  expect(await page.locator('html').getAttribute('data-mouse')).toBe(null)
})
