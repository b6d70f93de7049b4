import { mkdirSync, mkdtempSync, readdirSync, readFileSync } from 'node:fs'
import { tmpdir } from 'node:os'
import { join } from 'node:path'
import AxeBuilder from '@axe-core/playwright'
import type { Browser, Page } from 'playwright-core'
import { afterAll, beforeAll, expect, test } from 'vitest'
import { markedSample } from '../electron/publish/marked-sample.ts'
import { launchChromium } from './chromium.ts'
import { type Served, serve, whorl } from './served.ts'

const folder = mkdtempSync(join(tmpdir(), 'whorl-publish-'))
const paddle = 'Heron <b>14</b> מחבט בדיקה'
let browser: Browser
let served: Served
let page: Page
/** A busy machine may take long; what is waited for comes in the end. */
const patience = { timeout: 120_000 }
const troubles: string[] = []
const asked: string[] = []

beforeAll(async () => {
  const { host, hit } = await markedSample(join(folder, 'workspace.sqlite'))
  const context = { signal: new AbortController().signal, progress: () => {} }
  const { setUps } = await host.service['paddles.create']({ name: paddle, notes: '' }, context)
  await host.service['hits.assign']({ hitId: hit.row.hitId, setUpId: setUps[0]!.id }, context)
  await host.service['hits.edit'](
    { hitId: hit.row.hitId, edit: { kind: 'decide', verdict: { state: 'accepted', reason: '' } } },
    context,
  )
  await host.close()
  ;[browser, served] = await Promise.all([launchChromium(), serve(folder)])
  const size = { width: 1280, height: 720 }
  page = await (await browser.newContext({ viewport: size, acceptDownloads: true })).newPage()
  page.setDefaultTimeout(120_000)
  page.on('pageerror', error => troubles.push(error.message))
  page.on('console', message => message.type() === 'error' && troubles.push(message.text()))
  page.on('request', request => asked.push(request.url()))
  await page.goto(served.address)
  await page.getByRole('link', { name: 'Publish', exact: true }).click()
  await page.getByRole('heading', { name: 'Publish' }).waitFor()
})
afterAll(async () => {
  await browser?.close()
  await served?.stop()
})

const choose = (label: string, option: string) =>
  page.getByLabel(label, { exact: true }).first().selectOption({ label: option })
const picture = (name: string) => page.getByRole('img', { name, exact: true })
/** Drawn, with its size: a picture that the page's policy stopped has none. */
const widthOf = (name: string) => picture(name).evaluate(img => (img as HTMLImageElement).naturalWidth)
async function saved(button: string): Promise<{ name: string; bytes: Buffer; path: string }> {
  const [download] = await Promise.all([
    page.waitForEvent('download'),
    page.getByRole('button', { name: button, exact: true }).click(),
  ])
  const path = await download.path()
  return { name: download.suggestedFilename(), bytes: readFileSync(path), path }
}

test('each picture of a hit is drawn, saved, and handed to what it is dragged to', async () => {
  await choose('Shows', 'A hit')
  for (const kind of ['Bearing over time', 'The flight in one photograph', 'Balls turned back']) {
    await choose('Kind', kind)
    await picture(kind).waitFor()
    await expect.poll(() => widthOf(kind), patience).toBe(800)
  }
  const svg = await saved('Save SVG')
  expect(svg.name).toMatch(/^Heron.*\.svg$/)
  expect(svg.bytes.toString()).toContain('Heron &lt;b&gt;14')
  const dragged = await picture('Balls turned back').evaluate(img => {
    const transfer = new DataTransfer()
    img.dispatchEvent(new DragEvent('dragstart', { bubbles: true, dataTransfer: transfer }))
    return [transfer.getData('DownloadURL'), transfer.files[0]?.name, transfer.files[0]?.size]
  })
  expect(dragged[0]).toMatch(/^image\/svg\+xml:Heron[^:]*\.svg:blob:http:\/\/127\.0\.0\.1/)
  expect(dragged.slice(1)).toEqual([svg.name, svg.bytes.length])
  await choose('File', 'PNG')
  expect((await saved('Save PNG')).name).toMatch(/\.png$/)
})

test('a clip shows a frame at any place, then is made and plays', async () => {
  await choose('Kind', 'Annotated clip')
  await page.getByLabel('Shorter side').fill('240')
  await page.getByLabel('Frame', { exact: true }).fill('3')
  await expect.poll(() => widthOf('Frame 3 of the clip'), patience).toBe(426)
  await page.getByRole('button', { name: 'Make the clip' }).click()
  const film = page.locator('video')
  await film.waitFor(patience)
  await expect.poll(() => film.evaluate(video => (video as HTMLVideoElement).videoWidth), patience).toBe(426)
  const { bytes } = await saved('Save MP4')
  // ISO/IEC 14496-12, 4.3: a file begins with its type box.
  expect(bytes.toString('latin1', 4, 8)).toBe('ftyp')
})

test('a report is looked at as it is, in a frame that asks for nothing, and is whole in its file', async () => {
  await choose('Shows', 'A paddle')
  await choose('Kind', 'Report')
  const heading = page.frameLocator('iframe').getByRole('heading', { level: 1 })
  await expect.poll(() => heading.textContent(), patience).toContain('<b>14</b>')
  // Its own style is let in by the page's policy: without it a heading is twice as large as its text.
  expect(await heading.evaluate(element => getComputedStyle(element).fontSize)).toBe('28px')
  await choose('File', 'HTML')
  const { path } = await saved('Save HTML')
  const alone = await page.context().newPage()
  const wanted: string[] = []
  alone.on('request', request => wanted.push(request.url()))
  await alone.setContent(readFileSync(path, 'utf8'))
  await alone.getByRole('heading', { level: 1 }).waitFor()
  const { violations } = await new AxeBuilder({ page: alone }).analyze()
  expect(violations.filter(({ impact }) => impact === 'serious' || impact === 'critical')).toEqual([])
  expect(wanted.filter(url => !url.startsWith('data:'))).toEqual([])
  expect(await alone.evaluate(() => document.documentElement.scrollWidth - innerWidth)).toBeLessThanOrEqual(0)
  await alone.close()
  await choose('File', 'PDF')
  expect((await saved('Save PDF')).bytes.toString('latin1', 0, 5)).toBe('%PDF-')
})

test('lines are copied as they stand', async () => {
  await page.context().grantPermissions(['clipboard-read'], { origin: new URL(served.address).origin })
  await choose('Kind', 'Lines to paste')
  await page.getByRole('textbox', { name: 'Lines to paste' }).waitFor()
  await page.getByRole('button', { name: 'Copy' }).click()
  await page.getByText('Copied.').waitFor()
  expect(await page.evaluate(() => navigator.clipboard.readText())).toMatch(
    /^Heron .*: 1\d{3}\u00a0±\u00a0\d+ rpm/,
  )
})

test('a look is kept, worn again, and known to the command line', async () => {
  await choose('Kind', 'Hits as dots')
  await choose('Paper', 'Dark')
  await choose('Figures', '12\u202f345,6')
  await choose('Spin in', 'turns a second')
  await page.getByRole('button', { name: 'Keep this look…' }).click()
  await page.getByLabel('Name of the look').fill('Channel')
  await page.getByRole('button', { name: 'Keep', exact: true }).click()
  await expect.poll(() => page.getByLabel('Kept looks').inputValue(), patience).toBe('Channel')
  await choose('Paper', 'Light')
  await expect.poll(() => page.getByLabel('Kept looks').inputValue(), patience).toBe('')
  await choose('Kept looks', 'Channel')
  await expect.poll(() => page.getByLabel('Paper').inputValue(), patience).toBe('dark')
  const to = join(folder, 'dots.svg')
  const words = ['picture', 'dots', '--look', 'Channel', '--workspace', join(folder, 'workspace.sqlite')]
  expect(await whorl(...words, '--to', to)).toMatchObject({ code: 0 })
  const svg = readFileSync(to, 'utf8')
  expect(svg).toContain('#131719')
  expect(svg).toMatch(/>\d\d,\d+\u00a0±/)
})

test('the same for many paddles goes into a folder', async () => {
  const into = join(folder, 'season')
  mkdirSync(into)
  await page.getByLabel('Folder', { exact: true }).fill(into)
  await page.getByRole('button', { name: 'Make them' }).click()
  await page.getByText('1 file made.').waitFor(patience)
  expect(readdirSync(into)).toHaveLength(1)
})

test('nothing was asked of anywhere else, and nothing was stopped', () => {
  const { origin } = new URL(served.address)
  expect(asked.filter(url => !url.startsWith(origin) && !/^(data|blob):/.test(url))).toEqual([])
  expect(troubles).toEqual([])
})
