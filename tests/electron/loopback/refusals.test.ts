import { request as httpRequest, type IncomingHttpHeaders } from 'node:http'
import { connect } from 'node:net'
import { networkInterfaces } from 'node:os'
import { afterEach, beforeEach, describe, expect, it } from 'vitest'
import { problemSchema } from '../../../core/contract/problem.ts'
import { type Loopback, startLoopback } from '../../../electron/loopback/loopback.ts'
import { standInHost } from '../service/stand-in-host.ts'
import { type BrowserState, enter, fetchFrom } from './open-browser.ts'

const page = new Map([
  ['/', { type: 'text/html; charset=utf-8', bytes: Buffer.from('<!doctype html><title>Whorl</title>') }],
  ['/assets/app.js', { type: 'text/javascript; charset=utf-8', bytes: Buffer.from('1') }],
])
const limits = { callBytes: 1000, uploadBytes: 2000 }

let stand: ReturnType<typeof standInHost>
let server: Loopback
let browser: BrowserState

beforeEach(async () => {
  stand = standInHost()
  server = await startLoopback(stand.host, { page, limits })
  browser = await enter(server)
})
afterEach(() => server.close())

type Sent = { method?: string; path?: string; headers?: Record<string, string>; body?: string | Buffer }
type Got = { status: number; headers: IncomingHttpHeaders; text: string }

/** A request to the letter: unlike `fetch` it lets Host be another and leaves dots in the path. */
const raw = ({ method = 'GET', path = '/', headers = {}, body }: Sent): Promise<Got> =>
  new Promise((resolve, reject) => {
    const sent = httpRequest({ host: '127.0.0.1', port: server.port, method, path, headers }, answer => {
      let text = ''
      answer.setEncoding('utf8')
      answer.on('data', chunk => {
        text += chunk
      })
      answer.on('end', () => resolve({ status: answer.statusCode!, headers: answer.headers, text }))
    })
    sent.on('error', reject)
    sent.end(body)
  })

const everyAddress: Sent[] = [
  { path: '/' },
  { path: '/index.html' },
  { path: '/assets/app.js' },
  { path: '/events' },
  { path: '/frame/c/1' },
  { path: '/nothing' },
  { path: '/?token=' },
  { path: '/?token=wrong' },
  { method: 'POST', path: '/call/sessions.list', body: '{}' },
  { method: 'PUT', path: '/upload?name=a.mp4', body: 'bytes' },
  { method: 'DELETE', path: '/' },
  { method: 'OPTIONS', path: '/call/sessions.list' },
  { method: 'HEAD', path: '/' },
]
const own = () => ({ cookie: browser.cookie, origin: browser.origin, 'x-whorl-call': 'one' })
const refusedBy = ({ text }: Got) => (text === '' ? 'not-let-in' : problemSchema.parse(JSON.parse(text)).code)

describe('without the secret', () => {
  it.each(everyAddress)('$method $path does not answer', async sent => {
    const got = await raw({ ...sent, headers: { origin: browser.origin } })
    expect(got.status).toBe(401)
    expect(refusedBy(got)).toBe('not-let-in')
    expect(stand.heard).toEqual([])
    expect(stand.received).toEqual([])
  })

  it.each([
    ['a cookie of another port', () => browser.cookie.replace(/whorl-\d+/, 'whorl-1')],
    ['a wrong secret', () => `${browser.cookie.slice(0, -1)}_`],
    ['a shorter secret', () => browser.cookie.slice(0, -1)],
    ['no secret', () => `whorl-${server.port}=`],
  ])('%s does not open', async (_, cookie) => {
    expect((await raw({ headers: { cookie: cookie() } })).status).toBe(401)
  })

  it('the token opens the first page alone', async () => {
    const token = new URL(server.address).search
    for (const path of ['/events', '/frame/c/1', '/assets/app.js'])
      expect((await raw({ path: path + token })).status).toBe(401)
  })
})

describe('with the secret, asked from elsewhere', () => {
  it.each([
    ['a name that was rebound to this machine', 'evil.example'],
    ['that name with the right port', 'PORT evil.example'],
    ['localhost', 'PORT localhost'],
    ['no port', '127.0.0.1'],
    ['another port', '127.0.0.1:1'],
    ['the address in another notation', 'PORT 2130706433'],
  ])('refuses Host: %s', async (_, host) => {
    const name = host.startsWith('PORT ') ? `${host.slice(5)}:${server.port}` : host
    for (const sent of everyAddress) {
      const got = await raw({ ...sent, headers: { ...own(), host: name } })
      expect(got.status).toBe(403)
    }
    const { pathname, search } = new URL(server.address)
    expect((await raw({ path: pathname + search, headers: { host: name } })).status).toBe(403)
    expect(stand.heard).toEqual([])
  })

  it.each(['http://evil.example', 'null', 'http://127.0.0.1', 'http://localhost', 'whorl://app'])(
    'refuses Origin: %s',
    async origin => {
      for (const sent of everyAddress)
        expect((await raw({ ...sent, headers: { ...own(), origin } })).status).toBe(403)
      expect(stand.heard).toEqual([])
    },
  )

  it.each(['cross-site', 'same-site'])('refuses Sec-Fetch-Site: %s', async site => {
    const got = await raw({ path: '/frame/c/1', headers: { cookie: browser.cookie, 'sec-fetch-site': site } })
    expect(got.status).toBe(403)
  })

  it('refuses a change that does not say where it comes from', async () => {
    const headers = { cookie: browser.cookie, 'x-whorl-call': 'one' }
    const got = await raw({ method: 'POST', path: '/call/sessions.list', body: '{}', headers })
    expect(got.status).toBe(403)
    expect(stand.heard).toEqual([])
  })

  it('says nothing that would let another page read', async () => {
    for (const sent of everyAddress) {
      if (sent.path === '/events') continue
      const { headers } = await raw({ ...sent, headers: own() })
      expect(Object.keys(headers).filter(name => name.startsWith('access-control-'))).toEqual([])
    }
  })
})

describe('with the secret, from its own page', () => {
  it('sets a cookie that scripts cannot read and other sites cannot send, and drops the token', async () => {
    const { pathname, search } = new URL(server.address)
    const got = await raw({ path: pathname + search })
    expect(got.status).toBe(303)
    expect(got.headers.location).toBe('/')
    expect(got.headers['set-cookie']).toHaveLength(1)
    expect(got.headers['set-cookie']![0]).toMatch(/; HttpOnly; SameSite=Strict; Path=\/$/)
    expect(got.headers['set-cookie']![0]).not.toContain(new URL(server.address).searchParams.get('token'))
  })

  it('answers the page with a policy that lets in its own files alone', async () => {
    const got = await raw({ headers: own() })
    expect(got.text).toContain('<title>Whorl</title>')
    const policy = String(got.headers['content-security-policy'])
    expect(policy).toContain("default-src 'none'")
    expect(policy).toContain("frame-ancestors 'none'")
    expect(policy).not.toMatch(/unsafe|\*|https?:/)
    expect(got.headers).toMatchObject({
      'x-content-type-options': 'nosniff',
      'referrer-policy': 'no-referrer',
      'cross-origin-opener-policy': 'same-origin',
      'cross-origin-resource-policy': 'same-origin',
      'cache-control': 'no-store',
    })
  })

  it.each([
    '/../../etc/passwd',
    '/..%2f..%2fetc%2fpasswd',
    '/%2e%2e/%2e%2e/etc/passwd',
    '/assets/../../package.json',
    '/assets/..\\..\\package.json',
    '/assets/app.js%00.html',
    '//etc/passwd',
    '/file:///etc/passwd',
    '/assets/',
    '/constructor',
  ])('has no file at %s', async path => {
    const got = await raw({ path, headers: own() })
    expect(got.status).toBe(404)
    expect(got.text).toBe('Not found.')
  })

  it.each([
    '/frame/c/x',
    '/frame/c',
    '/frame/c/-1',
    '/frame/../1',
    '/frame/c/1?maxWidthPx=0',
    '/frame/c/1?maxWidthPx=1e9',
    '/frame/%E0%A4%A/1',
  ])('refuses the frame address %s', async path => {
    const got = await raw({ path, headers: own() })
    expect([400, 404]).toContain(got.status)
  })

  it.each(['', 'not json', '{"a":', '\u0000'])('refuses the body “%s”', async body => {
    const got = await raw({ method: 'POST', path: '/call/sessions.list', body, headers: own() })
    expect(got.status).toBe(400)
    expect(refusedBy(got)).toBe('bad-payload')
    expect(stand.heard).toEqual([])
  })

  it.each([undefined, '', 'a b', 'x'.repeat(65), '<script>'])('refuses the call id %s', async id => {
    const { 'x-whorl-call': _, ...rest } = own()
    const headers = { ...rest, ...(id === undefined ? {} : { 'x-whorl-call': id }) }
    const got = await raw({ method: 'POST', path: '/call/sessions.list', body: '{}', headers })
    expect(refusedBy(got)).toBe('bad-payload')
  })

  it('refuses a body over the limit, whether its length is said or not', async () => {
    const body = JSON.stringify({ notes: 'x'.repeat(1000) })
    const sent = { method: 'POST', path: '/call/sessions.list', body }
    const said = await raw({ ...sent, headers: { ...own(), 'content-length': String(body.length) } })
    const chunked = await raw({ ...sent, headers: { ...own(), 'transfer-encoding': 'chunked' } })
    for (const got of [said, chunked]) {
      expect(got.status).toBe(413)
      expect(refusedBy(got)).toBe('too-large')
    }
    expect(stand.heard).toEqual([])
  })

  it('refuses an upload over the limit and one without a name', async () => {
    const body = Buffer.alloc(2001)
    const large = await raw({ method: 'PUT', path: '/upload?name=a.mp4', body, headers: own() })
    expect(large.status).toBe(413)
    const nameless = await raw({ method: 'PUT', path: '/upload', body: 'x', headers: own() })
    expect(nameless.status).toBe(400)
    expect(stand.received).toEqual([])
  })

  it('answers nothing to methods it does not know', async () => {
    for (const method of ['DELETE', 'PATCH', 'OPTIONS', 'TRACE'])
      expect((await raw({ method, path: '/', headers: own() })).status).toBe(404)
  })

  it('outlives what is no request at all', async () => {
    await new Promise<void>(resolve => {
      const socket = connect(server.port, '127.0.0.1', () => socket.end('NONSENSE\r\n\r\n'))
      socket.on('close', () => resolve())
      socket.on('error', () => resolve())
      socket.resume()
    })
    expect((await fetchFrom(browser)('/')).status).toBe(200)
  })

  it('ends its event streams when it closes', async () => {
    const answer = await fetchFrom(browser)('/events')
    const reading = answer.text()
    await server.close()
    await expect(reading).rejects.toThrow()
  })
})

describe('the server', () => {
  it('listens on this machine’s loopback address alone', async () => {
    expect(server.address).toMatch(/^http:\/\/127\.0\.0\.1:\d+\/\?token=[\w-]{43}$/)
  })

  it('cannot be reached at another address of this machine', async () => {
    const others = Object.values(networkInterfaces())
      .flatMap(each => each ?? [])
      .filter(({ address, family }) => family === 'IPv4' && address !== '127.0.0.1')
      .map(({ address }) => address)
    for (const host of ['127.0.0.2', '::1', ...others]) {
      const reached = await new Promise<boolean>(resolve => {
        const socket = connect({ port: server.port, host })
        socket.once('connect', () => resolve(true)).once('error', () => resolve(false))
        socket.once('close', () => socket.destroy())
      })
      expect([host, reached]).toEqual([host, false])
    }
  })

  it('opens no socket beside its routes: an upgrade is a request like any other', async () => {
    const upgrade = { connection: 'upgrade', upgrade: 'websocket', 'sec-websocket-version': '13' }
    for (const path of ['/', '/events', '/socket'])
      expect((await raw({ path, headers: { ...upgrade, origin: browser.origin } })).status).toBe(401)
    expect((await raw({ path: '/socket', headers: { ...upgrade, ...own() } })).status).toBe(404)
  })

  it('says neither secret in anything that it answers after the first load', async () => {
    const secrets = [new URL(server.address).searchParams.get('token')!, browser.cookie.split('=')[1]!]
    for (const sent of everyAddress.filter(({ path }) => path !== '/events')) {
      const { text, headers } = await raw({ ...sent, headers: own() })
      for (const secret of secrets) expect(text + JSON.stringify(headers)).not.toContain(secret)
    }
  })

  it('takes camera, microphone, place and devices from its page', async () => {
    const { headers } = await raw({ headers: own() })
    for (const what of ['camera', 'microphone', 'geolocation', 'usb', 'serial', 'hid', 'display-capture'])
      expect(headers['permissions-policy']).toContain(`${what}=()`)
  })

  it('has another secret each time', async () => {
    const other = await startLoopback(stand.host, { page })
    expect(new URL(other.address).search).not.toBe(new URL(server.address).search)
    await other.close()
  })

  it('names the port that is taken', async () => {
    const again = startLoopback(stand.host, { page, port: server.port })
    await expect(again).rejects.toMatchObject({ code: 'port-taken' })
  })
})
