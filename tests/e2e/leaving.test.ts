import type { BrowserContext, Dialog, Page } from 'playwright-core'
import { afterAll, afterEach, beforeAll, expect, test } from 'vitest'
import type { BenchHit } from '../../core/contract/workspace.ts'
import { newHitOn } from './new-hit.ts'
import { type Opened, openedPage, patient } from './opened-page.ts'

let opened: Opened
let context: BrowserContext
let page: Page
let bench: string
beforeAll(async () => {
  opened = await openedPage()
  // A context outlives its pages, and with it the cookie that lets them in.
  context = await opened.browser.newContext({ viewport: { width: 1280, height: 720 } })
  context.setDefaultTimeout(patient.timeout)
  page = await context.newPage()
  page.on('dialog', leave)
  await page.goto(opened.served.address)
  await newHitOn(page, 'topspin-240-c')
  bench = page.url()
})
/** A person who is asked to stay, and leaves all the same. */
const leave = (dialog: Dialog) => dialog.accept()
/** A host that stands still is one that is slow to save: what a person does meanwhile waits in the page. */
const still = () => process.kill(opened.served.pid, 'SIGSTOP')
const goesOn = () => process.kill(opened.served.pid, 'SIGCONT')
afterEach(goesOn)
afterAll(async () => {
  goesOn()
  await opened?.close()
})

/** The hit as the host has it, asked by the page that is open now. */
async function stored(): Promise<BenchHit> {
  return page.evaluate(async hitId => {
    const headers = { 'content-type': 'application/json', 'x-whorl-call': crypto.randomUUID() }
    const answer = await fetch('/call/hits.open', {
      method: 'POST',
      headers,
      body: JSON.stringify({ hitId }),
    })
    return answer.json()
  }, bench.split('/').at(-1)!)
}
const begins = async () => (await stored()).marks.window.fromFrame

const frameNow = async () => Number(await page.locator('.frame-now .figure').textContent())
/** Lets the hit begin at each of so many frames, one after the other, as fast as keys can be pressed. */
async function moveBeginning(steps: number): Promise<number> {
  for (let i = 0; i < steps; i++) {
    await page.keyboard.press('d')
    await page.keyboard.press('c')
  }
  return frameNow()
}
async function openAgain(): Promise<void> {
  page = await context.newPage()
  page.on('dialog', leave)
  await page.goto(bench)
  await page.locator('.ball-stage[data-shows]').waitFor()
}
/** How many steps back there are: each was done once. */
async function steps(): Promise<number> {
  const hit = await stored()
  if (!hit.canUndo) return 0
  await page.keyboard.press('z')
  await expect
    .poll(async () => JSON.stringify((await stored()).marks), patient)
    .not.toBe(JSON.stringify(hit.marks))
  return 1 + (await steps())
}

test('what was done is there though the page was closed while the host was slow to save it, each step once', async () => {
  still()
  const frame = await moveBeginning(3)
  expect(await page.locator('.bench-line [role=status]').textContent()).toContain('saving')
  await page.close()
  goesOn()
  await openAgain()
  await expect.poll(begins, patient).toBe(frame)
  expect(await steps()).toBe(3)
})

test('it is there after a reload as well', async () => {
  still()
  const frame = await moveBeginning(4)
  const reloaded = page.reload({ waitUntil: 'commit' })
  // The new page is asked of the same host, which stands still.
  await page.waitForTimeout(200)
  goesOn()
  await reloaded
  await page.locator('.ball-stage[data-shows]').waitFor()
  await expect.poll(begins, patient).toBe(frame)
  expect(await steps()).toBe(4)
})

/** Keys faster than any person: in one breath of the page, which is loaded again at its end where said. */
const inOneBreath = (keys: string[], reload: boolean) =>
  page.evaluate(
    ([keys, reload]) => {
      for (const key of keys) document.dispatchEvent(new KeyboardEvent('keydown', { key, bubbles: true }))
      if (reload) location.reload()
    },
    [keys, reload] as const,
  )

test('it is there though the page was left in the very breath of the last key', async () => {
  const frame = await frameNow()
  await inOneBreath(['d', 'c', 'd', 'c', 'd', 'c'], true)
  await page.locator('.ball-stage[data-shows]').waitFor()
  await expect.poll(begins, patient).toBe(frame + 3)
})

test('a person is asked to stay while anything waits, and whoever stays has it saved', async () => {
  page.off('dialog', leave)
  still()
  const frame = await moveBeginning(2)
  const asked = page.waitForEvent('dialog')
  await page.close({ runBeforeUnload: true })
  const dialog = await asked
  expect(dialog.type()).toBe('beforeunload')
  await dialog.dismiss()
  goesOn()
  await expect.poll(() => page.locator('.bench-line [role=status]').textContent(), patient).toBe('')
  expect(await begins()).toBe(frame)
})
