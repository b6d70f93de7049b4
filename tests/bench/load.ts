/**
 * `npm run bench:load`: the program under years of work (100,000 hits, 10,000 clips, sessions of 500 clips),
 * in a real browser: how long until it answers, until each list is seen, how evenly a long list scrolls, and
 * what memory that takes. `-- --json` ends with one whorl.bench/1 document.
 */
import { mkdtempSync, readFileSync, rmSync, statSync } from 'node:fs'
import { tmpdir } from 'node:os'
import { join } from 'node:path'
import { monitorEventLoopDelay } from 'node:perf_hooks'
import { parseArgs } from 'node:util'
import type { Page } from 'playwright-core'
import { build } from '../../electron/build.mjs'
import { openHost } from '../../electron/service/open-host.ts'
import { launchChromium } from '../e2e/chromium.ts'
import { serve } from '../e2e/served.ts'
import { fillWorkspace } from './load-fill.ts'

const { values } = parseArgs({
  options: {
    sessions: { type: 'string', default: '20' },
    clips: { type: 'string', default: '500' },
    hits: { type: 'string', default: '10' },
    paddles: { type: 'string', default: '300' },
    json: { type: 'boolean', default: false },
  },
})
const amounts = {
  sessions: Number(values.sessions),
  clipsEach: Number(values.clips),
  hitsEach: Number(values.hits),
  paddles: Number(values.paddles),
}
const hits = amounts.sessions * amounts.clipsEach * amounts.hitsEach
const figures: Record<string, number> = {}
const put = (name: string, value: number, words: string) => {
  figures[name] = Number(value.toFixed(3))
  process.stdout.write(`${words.padEnd(64)} ${value.toFixed(2)}\n`)
}
const secondsSince = (from: number) => (performance.now() - from) / 1000

/** The host in this process, without a page: opened, and each list asked for once. */
async function askHost(workspaceFile: string): Promise<void> {
  const from = performance.now()
  const host = openHost({ workspaceFile, shell: 'loopback', folders: null, pick: null })
  const context = { signal: new AbortController().signal, progress: () => {} }
  await host.service['workspace.info']({}, context)
  const sessions = await host.service['sessions.list']({}, context)
  put('hostFirstAnswerSeconds', secondsSince(from), 'Host opened and its sessions answered, s')
  const timed = async (name: string, words: string, work: () => Promise<unknown>) => {
    const began = performance.now()
    const answer = await work()
    put(name, secondsSince(began), words)
    return answer
  }
  const sessionId = sessions[0]!.id
  await timed('clipsListSeconds', 'Clips of one session, s', () =>
    host.service['clips.list']({ sessionId }, context),
  )
  await timed('hitsListSeconds', 'Hits of one session, s', () =>
    host.service['hits.list']({ sessionId }, context),
  )
  await timed('hitsFirstPageSeconds', 'First page of all hits, s', () =>
    host.service['hits.page']({ after: null, least: 1000 }, context),
  )
  const page = await timed('hitsLongPageSeconds', 'A page of 20,000 hits, s', () =>
    host.service['hits.page']({ after: null, least: 20_000 }, context),
  )
  put('hitsLongPageMegabytes', JSON.stringify(page).length / 1e6, 'The same as JSON, MB')
  const waits = monitorEventLoopDelay({ resolution: 1 })
  waits.enable()
  await timed('firstRatingsSeconds', 'Ratings, every figure made, s', () =>
    host.service['ratings.table']({}, context),
  )
  waits.disable()
  put('firstRatingsLongestWaitMs', waits.max / 1e6, 'The longest that another call waits meanwhile, ms')
  await timed('ratingsSeconds', 'Ratings, nothing changed, s', () =>
    host.service['ratings.table']({}, context),
  )
  await host.close()
}

/** Milliseconds between drawn pictures while a long list is scrolled through: half, and the slowest in a hundred. */
const scrolled = (page: Page, list: string): Promise<{ median: number; p99: number }> =>
  page.locator(list).evaluate(async element => {
    const gaps: number[] = []
    let last = performance.now()
    for (let step = 0; step < 240; step++) {
      element.scrollTop += step < 200 ? 180 : (element.scrollHeight / 40) * (step % 2 ? 1 : -0.5)
      await new Promise(requestAnimationFrame)
      gaps.push(performance.now() - last)
      last = performance.now()
    }
    gaps.sort((a, b) => a - b)
    return { median: gaps[120]!, p99: gaps[237]! }
  })

async function lookAt(folder: string): Promise<void> {
  const from = performance.now()
  const served = await serve(folder)
  put('programReadySeconds', secondsSince(from), 'The program started and served, s')
  const browser = await launchChromium()
  try {
    const page = await browser.newPage({ viewport: { width: 1280, height: 720 }, reducedMotion: 'reduce' })
    page.setDefaultTimeout(120_000)
    const seen = async (name: string, words: string, go: () => Promise<unknown>, what: string) => {
      const began = performance.now()
      await go()
      await page.locator(what).first().waitFor()
      put(name, secondsSince(began), words)
    }
    const open = (word: string) => () => page.getByRole('link', { name: word, exact: true }).first().click()
    const address = () => page.goto(served.address)
    await seen('sessionsSeconds', 'Page opened, sessions seen, s', address, '.sessions-list > li')
    const line = page.locator('.session-line').first()
    await seen(
      'sessionOpenSeconds',
      `A session of ${values.clips} clips opened, s`,
      () => line.click(),
      '.clip',
    )
    const clips = await scrolled(page, 'main')
    put('clipsScrollMedianMs', clips.median, 'Scrolling its clips: half of the pictures within, ms')
    put('clipsScrollP99Ms', clips.p99, 'the slowest in a hundred, ms')
    const row = '.hit-table .row-grid-row'
    await seen('readingsSeconds', 'Readings: first rows seen, s', open('Readings'), row)
    const whole = performance.now()
    await page.getByText(new RegExp(`^${hits.toLocaleString('en').replaceAll(',', '.?')} hits$`)).waitFor()
    put('readingsWholeSeconds', secondsSince(whole), 'all of them there, s more')
    const readings = await scrolled(page, '.hit-table')
    put('readingsScrollMedianMs', readings.median, 'Scrolling the readings: half of the pictures within, ms')
    put('readingsScrollP99Ms', readings.p99, 'the slowest in a hundred, ms')
    await seen('paddlesSeconds', 'Paddles seen, s', open('Paddles'), '.row-grid-row')
    const metrics = await page.context().newCDPSession(page)
    await open('Readings')()
    await page.getByText(new RegExp(`^${hits.toLocaleString('en').replaceAll(',', '.?')} hits$`)).waitFor()
    await metrics.send('HeapProfiler.collectGarbage')
    const { usedSize } = await metrics.send('Runtime.getHeapUsage')
    put('pageMegabytes', usedSize / 1e6, 'Page with all readings, MB')
    put('hostMegabytes', peakMegabytes(served.pid), 'Host, the most it held, MB')
  } finally {
    await browser.close()
    await served.stop()
  }
}

/** By what Linux says of a process (VmHWM); 0 elsewhere. */
function peakMegabytes(pid: number): number {
  if (process.platform !== 'linux') return 0
  const status = readFileSync(`/proc/${pid}/status`, 'utf8')
  return Number(/^VmHWM:\s+(\d+) kB/m.exec(status)![1]) / 1000
}

const folder = mkdtempSync(join(tmpdir(), 'whorl-load-'))
const workspaceFile = join(folder, 'workspace.sqlite')
await build()
try {
  fillWorkspace(workspaceFile, folder, amounts)
  put('workspaceMegabytes', statSync(workspaceFile).size / 1e6, `Workspace of ${hits} hits, MB`)
  await askHost(workspaceFile)
  await lookAt(folder)
} finally {
  rmSync(folder, { recursive: true, force: true })
}
if (values.json)
  process.stdout.write(`${JSON.stringify({ schema: 'whorl.bench/1', bench: 'load', figures })}\n`)
