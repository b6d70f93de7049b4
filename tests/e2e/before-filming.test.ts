import { execFileSync } from 'node:child_process'
import { mkdirSync, writeFileSync } from 'node:fs'
import { basename, join } from 'node:path'
import type { Browser, Page } from 'playwright-core'
import { afterAll, beforeAll, expect, test } from 'vitest'
import { makers } from '../electron/media/builds.ts'
import { launchChromium } from './chromium.ts'
import { type Served, samples, serve, whorl } from './served.ts'

let browser: Browser
let served: Served
let filmed: string
beforeAll(async () => {
  served = await serve()
  browser = await launchChromium()
  filmed = join(served.folder, 'filmed')
  mkdirSync(filmed)
  // Every second picture of this "240 fps" clip is a mix of its neighbours.
  make('mixed.mp4', [
    ...['-i', join(samples, 'contact-240.mp4')],
    ...['-vf', 'scale=480:270,fps=120,minterpolate=fps=240:mi_mode=blend'],
  ])
  // A disc with two blots at 78.26 rpm, filmed at 239.76 fps by a camera that is set to 240.
  const disc = "rotate=a='2*PI*78.26/60*n/239.76':c=gray"
  const blots =
    'drawbox=x=40:y=30:w=30:h=24:color=black:t=fill,drawbox=x=90:y=70:w=20:h=14:color=white:t=fill'
  make('table.mp4', ['-f', 'lavfi', '-i', 'color=c=gray:s=160x120:r=240:d=3', '-vf', `${blots},${disc}`])
})
afterAll(async () => {
  await browser?.close()
  await served?.stop()
})

const make = (name: string, how: string[]) =>
  execFileSync(makers.ffmpeg.path, [
    ...['-v', 'error', '-nostdin', ...how, '-c:v', 'libx264', '-crf', '20', '-pix_fmt', 'yuv420p'],
    join(filmed, name),
  ])
/** A machine at work on other things answers late; that is no fault here. */
const patient = { timeout: 60_000 }

/** Chooses one clip in the folder browser that stands open. */
async function choose(page: Page, folders: string[], clip: string, verb: string) {
  for (const folder of folders) await page.getByRole('button', { name: `${folder}/`, exact: true }).click()
  await page.getByLabel(clip).check()
  await page.getByRole('button', { name: verb, exact: true }).click()
}

test('plan, follow the advice, print the filming sheet', async () => {
  const page = await browser.newPage({ viewport: { width: 1280, height: 720 } })
  page.setDefaultTimeout(120_000)
  await page.goto(served.address)
  await page.getByRole('link', { name: 'Plan', exact: true }).click()
  await page.getByLabel('Exposure', { exact: true }).fill('1/400')
  await page.getByText('its outline is lost').waitFor()
  await page.locator('.foreseen-advice li').getByText('Exposure 1/1600').waitFor()
  await page.getByLabel('Exposure', { exact: true }).fill('1/1600')
  await page.getByText('Nothing stands in the way').waitFor()

  await page.getByLabel('Capture rate').fill('0')
  await page.getByText('A number above 0.').waitFor()
  await page.getByLabel('Capture rate').fill('240')
  await page.getByText('Nothing stands in the way').waitFor()

  await page.getByLabel('Paddles, one a line').fill('Ostrel 16\nOstrel 14\nVenn\nKarst')
  await page.getByLabel('Reference paddle').fill('Hall paddle')
  await page.getByRole('list', { name: 'Block 3' }).waitFor()
  const pdf = await page.pdf({ preferCSSPageSize: true })
  // One page: a PDF names its pages in "/Type /Page" objects (ISO 32000-1, 7.7.3.3).
  expect(pdf.toString('latin1').match(/\/Type\s*\/Page\b(?!s)/g)).toHaveLength(1)
  if (process.env.WHORL_SHEET) writeFileSync(process.env.WHORL_SHEET, pdf)
  await page.emulateMedia({ media: 'print' })
  expect(await page.getByText('Not a certification').isVisible()).toBe(true)
  expect(await page.getByLabel('Capture rate').isVisible()).toBe(false)
  await page.close()
})

test('a camera is checked by a clip, fills the day’s session, and clips tick the day off', async () => {
  const page = await browser.newPage({ viewport: { width: 1280, height: 720 } })
  await page.goto(served.address)
  await page.getByRole('link', { name: 'Plan', exact: true }).click()
  await page.getByRole('link', { name: 'Cameras', exact: true }).click()
  await page.getByRole('button', { name: 'New camera' }).click()
  await page.getByLabel('Name', { exact: true }).fill('Court camera')
  await page.getByLabel('Set to').fill('240')
  await page.getByRole('button', { name: 'Keep camera' }).click()

  await page.getByRole('button', { name: 'Check it' }).first().click()
  await page.getByRole('button', { name: 'Choose the clip…' }).click()
  await choose(page, [basename(served.folder), 'filmed'], 'table.mp4', 'Choose')
  await page.getByText('720 frames').waitFor(patient)
  await page.getByLabel('It turns at').fill('78.26')
  await page.getByRole('button', { name: 'Check', exact: true }).click()
  const figure = page.locator('.check-result-figure')
  await figure.waitFor(patient)
  expect(Math.abs(Number.parseFloat((await figure.textContent())!) / 239.76 - 1)).toBeLessThan(0.001)
  await page.getByRole('button', { name: 'Keep it with this camera' }).click()
  await page.getByText('by a turntable, table.mp4').waitFor()

  await page.getByRole('link', { name: 'Plan', exact: true }).click()
  await page.getByLabel('Fill from').selectOption('Court camera')
  await page.getByLabel('Paddles, one a line').fill('Ostrel 16\nVenn / weighted')
  await page.getByLabel('Reference paddle').fill('Hall paddle')
  await page.getByLabel('Hits of each').fill('1')
  await page.getByLabel('Blocks', { exact: true }).fill('1')
  await page.getByRole('button', { name: 'Begin the day’s session' }).click()
  const next = page.locator('.day-next')
  await next.getByText('Take a fresh ball.').waitFor()
  await page.getByText(/Court camera · 239\.7/).waitFor()
  const order = await page.locator('.day-turn-name').allTextContents()

  await page.getByRole('button', { name: 'Add clips…' }).click()
  await choose(page, [basename(served.folder), 'filmed'], 'mixed.mp4', `Add 1\u00a0clip`)
  // It ticked its turn off when it came, and opened it again when it was looked at.
  await page.getByText('0 of 3\u00a0clips, 1\u00a0clip to film again').waitFor(patient)
  await page.locator('.day-blocks button').first().click()
  await page.getByText('Film it again:').getByText('Get the file that the camera wrote').waitFor()
  await page.getByRole('button', { name: 'Add clips…' }).click()
  await choose(page, [basename(samples)], 'contact-240.mp4', `Add 1\u00a0clip`)
  await page.getByText('1 of 3\u00a0clips, 1\u00a0clip to film again').waitFor(patient)
  await expect.poll(() => next.textContent(), patient).toContain(order[1])
  // A page that goes away takes back what was not looked at yet.
  await page.locator('.clip', { hasText: 'contact-240.mp4' }).getByText('960×540').waitFor(patient)
  await page.reload()
  await page.getByText('1 of 3\u00a0clips, 1\u00a0clip to film again').waitFor(patient)
  await page.close()
})

test('a bad clip says on the command line what is wrong with it and what to do', async () => {
  const { code, out } = await whorl('inspect', join(filmed, 'mixed.mp4'))
  expect(code).toBe(0)
  expect(out).toContain('[do not measure] Get the file that the camera wrote')
})
