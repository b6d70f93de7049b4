/**
 * `npm run soak`: an hour's worth of marking at speed, in a real browser: steps, clicks, undo and redo, the same
 * hit over and over. Ends with 1 when page or host hold more and more, a click is not kept, or a program outlives
 * the host.
 *
 *   --clicks N   1800 unless said: one every two seconds of an hour
 */
import { execFileSync } from 'node:child_process'
import { mkdtempSync, readFileSync } from 'node:fs'
import { tmpdir } from 'node:os'
import { join } from 'node:path'
import { setTimeout as pause } from 'node:timers/promises'
import { parseArgs } from 'node:util'
import type { CDPSession, Page } from 'playwright-core'
import { median } from '../../core/numerics/median.ts'
import { build } from '../../electron/build.mjs'
import { connect } from '../../electron/store/driver.ts'
import { launchChromium } from '../e2e/chromium.ts'
import { screens } from '../e2e/screens.ts'
import { type Served, serve, whorl } from '../e2e/served.ts'

const { values } = parseArgs({ options: { clicks: { type: 'string', default: '1800' } } })
const clicks = Number(values.clicks)
const looks = 12
/** More than this from the second quarter of the looks to the last is growth; below it lies what comes and goes. */
const limits = { pageMegabytes: 8, hostMegabytes: 40 }

type Look = { click: number; pageMegabytes: number; hostMegabytes: number }

/** Marks the ball as a person would with the keys: a step on, a click beside the last one, now and then back. */
async function mark(page: Page, from: number, to: number): Promise<void> {
  const stage = page.locator('.ball-stage')
  const box = (await stage.boundingBox())!
  for (let click = from; click < to; click++) {
    const angle = click * 0.9
    const [x, y] = [
      box.x + box.width / 2 + 60 * Math.cos(angle),
      box.y + box.height / 2 + 60 * Math.sin(angle),
    ]
    await page.mouse.move(x, y)
    await page.mouse.click(x, y)
    if (click % 10 === 9) for (const key of ['Control+z', 'Control+Shift+z']) await page.keyboard.press(key)
    if (click % 12 === 11) await page.keyboard.press('q')
    else await page.keyboard.press('d')
  }
}

/** Clicks come faster here than the host saves them; the page shows for how long some are waiting. */
const allSaved = (page: Page) =>
  page.locator('.bench-line [role="status"]').getByText('saving').waitFor({ state: 'detached', timeout: 0 })

async function look(click: number, { pid }: Served, metrics: CDPSession): Promise<Look> {
  await metrics.send('HeapProfiler.collectGarbage')
  const { usedSize } = await metrics.send('Runtime.getHeapUsage')
  const resident = /^VmRSS:\s+(\d+) kB/m.exec(readFileSync(`/proc/${pid}/status`, 'utf8'))![1]
  return { click, pageMegabytes: usedSize / 1e6, hostMegabytes: Number(resident) / 1000 }
}

/** Programs that the host started and that are still there, by the folder in their words. */
const left = (folder: string): string[] =>
  execFileSync('ps', ['-eo', 'stat=,args='])
    .toString()
    .split('\n')
    .filter(line => !/^\s*Z/.test(line) && line.includes(folder) && !/ps -eo|soak\.ts/.test(line))

const growth = (seen: readonly Look[], of: 'pageMegabytes' | 'hostMegabytes'): number => {
  const quarter = Math.floor(seen.length / 4)
  const middle = (some: readonly Look[]) => median(some.map(one => one[of]))
  return middle(seen.slice(-quarter)) - middle(seen.slice(quarter, 2 * quarter))
}

/** Steps that the workspace holds: each click is one. */
function stepsKept(folder: string): number {
  const db = connect(join(folder, 'workspace.sqlite'), true)
  const { steps } = db.prepare('SELECT sum(steps_taken) AS steps FROM hit').get({}) as { steps: number }
  db.close()
  return steps
}

await build()
const folder = mkdtempSync(join(tmpdir(), 'whorl-soak-'))
const made = await whorl('demo', '--dir', folder, '--no-open')
if (made.code !== 0) throw new Error(`whorl demo failed: ${made.error}`)
const before = stepsKept(folder)
const served = await serve(folder)
const browser = await launchChromium()
const seen: Look[] = []
let programs: string[] = []
let steps = 0
try {
  const page = await browser.newPage({ viewport: { width: 1280, height: 720 }, reducedMotion: 'reduce' })
  page.setDefaultTimeout(120_000)
  await page.goto(served.address)
  await screens.bench!(page)
  const metrics = await page.context().newCDPSession(page)
  for (let turn = 0; turn < looks; turn++) {
    const next = Math.round(((turn + 1) * clicks) / looks)
    await mark(page, Math.round((turn * clicks) / looks), next)
    await allSaved(page)
    seen.push(await look(next, served, metrics))
    const { click, pageMegabytes, hostMegabytes } = seen.at(-1)!
    console.log(`${click} clicks: page ${pageMegabytes.toFixed(1)} MB, host ${hostMegabytes.toFixed(0)} MB`)
  }
  steps = stepsKept(folder) - before
} finally {
  await browser.close()
  await served.stop()
  for (let patience = 50; patience > 0; patience--) {
    programs = left(folder)
    if (programs.length === 0) break
    await pause(100)
  }
}
const grown = { page: growth(seen, 'pageMegabytes'), host: growth(seen, 'hostMegabytes') }
console.log(
  `Grown: page ${grown.page.toFixed(1)} MB, host ${grown.host.toFixed(1)} MB; ${programs.length} programs left; ${steps} of ${clicks} clicks kept`,
)
for (const line of programs) console.log(line)
const isSound =
  grown.page < limits.pageMegabytes &&
  grown.host < limits.hostMegabytes &&
  programs.length === 0 &&
  steps === clicks
process.exitCode = isSound ? 0 : 1
