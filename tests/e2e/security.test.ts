import { once } from 'node:events'
import { createServer, type Server } from 'node:http'
import type { AddressInfo } from 'node:net'
import type { Browser, BrowserContext, Page } from 'playwright-core'
import { afterAll, beforeAll, beforeEach, describe, expect, test } from 'vitest'
import { launchChromium } from './chromium.ts'
import { type Served, serve } from './served.ts'

/** A name that an attacker's server has rebound to this machine. */
const rebound = 'rebound.example'

let served: Served
let browser: Browser
let context: BrowserContext
let page: Page
/** Another server of this machine, as a page from elsewhere would have: what it is asked for is written down. */
let elsewhere: Server
let foreign: string
let asked: string[]

beforeAll(async () => {
  served = await serve()
  elsewhere = createServer((request, response) => {
    asked.push(`${request.method} ${request.url}`)
    response.setHeader('access-control-allow-origin', '*')
    if (request.url === '/page') response.setHeader('content-type', 'text/html')
    response.end(request.url === '/script.js' ? 'globalThis.remote = true' : '<title>Elsewhere</title>')
  }).listen(0, '127.0.0.1')
  await once(elsewhere, 'listening')
  foreign = `http://127.0.0.1:${(elsewhere.address() as AddressInfo).port}`
  browser = await launchChromium([
    `--host-resolver-rules=MAP ${rebound} 127.0.0.1`,
    '--use-fake-device-for-media-stream',
  ])
  context = await browser.newContext({ geolocation: { latitude: 0, longitude: 0 } })
  page = await context.newPage()
  page.setDefaultTimeout(60_000)
  await page.goto(served.address)
  await page.getByRole('button', { name: 'Choose clips…' }).waitFor()
})
beforeEach(() => {
  asked = []
})
afterAll(async () => {
  await browser?.close()
  await served?.stop()
  elsewhere?.close()
})

const origin = () => new URL(served.address).origin

declare global {
  /** What the tests leave on the page: directives that stopped something, and what forbidden code would set. */
  var stopped: string[], reached: true | undefined
  var added: <K extends keyof HTMLElementTagNameMap>(tag: K, with_: object) => HTMLElementTagNameMap[K]
}

describe('the page’s own policy', () => {
  beforeAll(() =>
    page.evaluate(() => {
      globalThis.added = (tag, parts) =>
        document.body.appendChild(Object.assign(document.createElement(tag), parts))
      document.addEventListener('securitypolicyviolation', event => stopped.push(event.effectiveDirective))
    }),
  )
  beforeEach(() =>
    page.evaluate(() => {
      globalThis.stopped = []
      globalThis.reached = undefined
    }),
  )

  const forbidden: [string, string, (foreign: string) => unknown][] = [
    ['script-src-elem', 'a script in its text', () => added('script', { textContent: 'reached = true' })],
    ['script-src-elem', 'a script of another server', from => added('script', { src: `${from}/script.js` })],
    [
      'script-src-attr',
      'a script in an attribute',
      () => {
        const button = added('button', {})
        button.setAttribute('onclick', 'reached = true')
        button.click()
      },
    ],
    [
      'script-src-elem',
      'a javascript: link',
      () => added('a', { href: 'javascript:reached = true' }).click(),
    ],
    [
      'script-src',
      'words run as a script',
      // Later: what the test itself runs in the page is let in by the browser's debugger.
      // biome-ignore lint/security/noGlobalEval: that it does not work is what is tested.
      () => setTimeout(() => globalThis.eval('reached = true')),
    ],
    ['worker-src', 'a worker out of thin air', () => new Worker(URL.createObjectURL(new Blob(['1'])))],
    ['style-src-elem', 'a style in its text', () => added('style', { textContent: '*{color:red}' })],
    [
      'style-src-elem',
      'a style of elsewhere',
      from => added('link', { rel: 'stylesheet', href: `${from}/a.css` }),
    ],
    ['img-src', 'a picture of elsewhere', from => added('img', { src: `${from}/a.png` })],
    ['font-src', 'a font of elsewhere', from => new FontFace('a', `url(${from}/a.woff2)`).load()],
    ['connect-src', 'a question to elsewhere', from => fetch(`${from}/fetch`)],
    ['connect-src', 'a socket to elsewhere', from => new WebSocket(`${from.replace('http', 'ws')}/socket`)],
    ['connect-src', 'events of elsewhere', from => new EventSource(`${from}/events`)],
    ['connect-src', 'a parting word to elsewhere', from => navigator.sendBeacon(`${from}/beacon`, 'words')],
    ['frame-src', 'a frame of elsewhere', from => added('iframe', { src: `${from}/page` })],
    [
      'object-src',
      'a plug-in of elsewhere',
      from => added('object', { data: `${from}/a.svg`, type: 'image/svg+xml' }),
    ],
    ['form-action', 'a form sent elsewhere', from => added('form', { action: `${from}/form` }).submit()],
    ['base-uri', 'another base for its addresses', from => added('base', { href: from })],
  ]

  test.each(forbidden)('%s stops %s', async (directive, _, attempt) => {
    // Some throw at once, others only come to nothing.
    await page.evaluate(attempt, foreign).catch(() => {})
    await expect.poll(() => page.evaluate(() => stopped), { timeout: 60_000 }).toContain(directive)
    expect(await page.evaluate(() => globalThis.reached)).toBeUndefined()
    expect(asked).toEqual([])
  })
})

test('what opens elsewhere learns neither who sent it nor a way back', async () => {
  const opened = context.waitForEvent('page')
  await page.evaluate(from => void window.open(`${from}/page`), foreign)
  const popup = await opened
  await popup.waitForURL(`${foreign}/page`)
  expect(await popup.evaluate(() => ({ opener: window.opener, referrer: document.referrer }))).toEqual({
    opener: null,
    referrer: '',
  })
  await popup.close()
})

test('camera, microphone and place are refused though the person has allowed them', async () => {
  await context.grantPermissions(['camera', 'microphone', 'geolocation'], { origin: origin() })
  const refused = await page.evaluate(async () => {
    const nameOf = (error: { name: string }) => error.name
    const media = navigator.mediaDevices
    return [
      await media.getUserMedia({ video: true }).then(() => 'given', nameOf),
      await media.getUserMedia({ audio: true }).then(() => 'given', nameOf),
      await new Promise(tell =>
        navigator.geolocation.getCurrentPosition(
          () => tell('given'),
          ({ code, PERMISSION_DENIED }) => tell(code === PERMISSION_DENIED ? 'NotAllowedError' : code),
        ),
      ),
    ]
  })
  // A browser built without cameras (the one from the package registry) refuses by another name.
  expect(refused.slice(0, 2)).toEqual(
    Array(2).fill(expect.stringMatching(/^(NotAllowedError|NotSupportedError)$/)),
  )
  expect(refused[2]).toBe('NotAllowedError')
  const allowed = await page.evaluate(() => {
    const { featurePolicy } = document as unknown as { featurePolicy: { allowedFeatures(): string[] } }
    return featurePolicy.allowedFeatures()
  })
  expect(allowed.filter(name => ['camera', 'microphone', 'geolocation'].includes(name))).toEqual([])
})

test('no secret stays where a page, a script or the next person could find it', async () => {
  const token = new URL(served.address).searchParams.get('token')!
  const [cookie] = await context.cookies(origin())
  expect(cookie).toMatchObject({ httpOnly: true, sameSite: 'Strict', domain: '127.0.0.1' })
  const found = await page.evaluate(() =>
    JSON.stringify([
      location.href,
      document.cookie,
      document.documentElement.outerHTML,
      { ...localStorage },
      { ...sessionStorage },
      performance.getEntries().map(entry => entry.name),
    ]),
  )
  expect(token.length).toBeGreaterThan(40)
  for (const secret of [token, cookie!.value]) expect(found).not.toContain(secret)
})

describe('a page of another server on this machine, in the same browser', () => {
  let stranger: Page
  let answers: number[]
  beforeAll(async () => {
    stranger = await context.newPage()
    stranger.on('response', answer => answer.url().startsWith(origin()) && answers.push(answer.status()))
    await stranger.goto(`${foreign}/page`)
  })
  beforeEach(() => {
    answers = []
  })

  /** Each answers true when it got something out of the app. */
  const attempts: [string, (app: string) => Promise<boolean> | boolean][] = [
    [
      'read what is there',
      app =>
        fetch(`${app}/call/sessions.list`, { credentials: 'include' }).then(
          () => true,
          () => false,
        ),
    ],
    [
      'change what is there, blind',
      app =>
        fetch(`${app}/call/demo.fill`, {
          method: 'POST',
          mode: 'no-cors',
          credentials: 'include',
          body: '{}',
        }).then(
          answer => answer.ok,
          () => false,
        ),
    ],
    [
      'change what is there as the app does',
      app =>
        fetch(`${app}/call/demo.fill`, {
          method: 'POST',
          credentials: 'include',
          headers: { 'x-whorl-call': 'one', 'content-type': 'application/json' },
          body: '{}',
        }).then(
          () => true,
          () => false,
        ),
    ],
    [
      'put a file there',
      app =>
        fetch(`${app}/upload?name=a.mp4`, { method: 'PUT', credentials: 'include', body: 'bytes' }).then(
          () => true,
          () => false,
        ),
    ],
    [
      'listen to its events',
      app =>
        new Promise(tell => {
          const source = new EventSource(`${app}/events`, { withCredentials: true })
          source.onopen = () => tell(true)
          source.onerror = () => tell(false)
        }),
    ],
    [
      'open a socket',
      app =>
        new Promise(tell => {
          const socket = new WebSocket(`${app.replace('http', 'ws')}/events`)
          socket.onopen = () => tell(true)
          socket.onerror = () => tell(false)
        }),
    ],
    [
      'load its page as a script',
      app =>
        new Promise(tell => {
          const script = document.createElement('script')
          script.onload = () => tell(true)
          script.onerror = () => tell(false)
          script.src = `${app}/`
          document.head.append(script)
        }),
    ],
    [
      'show it in a frame',
      app =>
        new Promise(tell => {
          const frame = document.createElement('iframe')
          frame.onload = () => tell(frame.contentDocument !== null)
          frame.src = `${app}/`
          document.body.append(frame)
        }),
    ],
  ]
  test.each(attempts)('cannot %s', async (_, attempt) => {
    expect(await stranger.evaluate(attempt, origin())).toBe(false)
    // 403, or 0 where the browser itself did not let the question out.
    expect(answers.filter(status => status !== 403)).toEqual([])
  })

  test('was let in nowhere', async () => {
    const info = await page.evaluate(async () => {
      const init = { method: 'POST', headers: { 'x-whorl-call': 'one' }, body: '{}' }
      return (await fetch('/call/workspace.info', init)).json()
    })
    expect(info).toMatchObject({ empty: true })
  })
})

test('a name rebound to this machine is refused, with the secret address too', async () => {
  const trap = await context.newPage()
  const { port, search } = new URL(served.address)
  for (const address of [`http://${rebound}:${port}/`, `http://${rebound}:${port}/${search}`])
    expect((await trap.goto(address))!.status()).toBe(403)
  await trap.close()
})

test('another browser of this machine is refused without the secret address', async () => {
  const other = await browser.newContext()
  expect((await (await other.newPage()).goto(`${origin()}/`))!.status()).toBe(401)
  await other.close()
})
