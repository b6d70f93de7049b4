import { createHash, randomBytes, timingSafeEqual } from 'node:crypto'
import type { IncomingMessage } from 'node:http'

/** What an answer to a stranger holds: enough for a person who typed the bare address, nothing else. */
export type Refusal = { status: 401 | 403; what: string }

const digest = (text: string) => createHash('sha256').update(text).digest()
const same = (a: string, b: string) => timingSafeEqual(digest(a), digest(b))

/**
 * Decides who may ask. Only a browser that opened the secret address once holds the cookie, and only pages
 * of this very server may use it. Cookies know no ports, so the port stands in the cookie's name.
 */
export function createAccess(port: number) {
  const host = `127.0.0.1:${port}`
  const origin = `http://${host}`
  const token = randomBytes(32).toString('base64url')
  const session = randomBytes(32).toString('base64url')
  const cookieName = `whorl-${port}`

  const bringsToken = (request: IncomingMessage, url: URL): boolean =>
    request.method === 'GET' && url.pathname === '/' && same(url.searchParams.get('token') ?? '', token)
  const bringsCookie = (request: IncomingMessage): boolean =>
    (request.headers.cookie ?? '')
      .split(/;\s*/)
      .some(pair => pair.startsWith(`${cookieName}=`) && same(pair.slice(cookieName.length + 1), session))

  return {
    origin,
    /** The address to open once; the token leaves the address bar with the first answer. */
    address: `${origin}/?token=${token}`,
    setCookie: `${cookieName}=${session}; HttpOnly; SameSite=Strict; Path=/`,
    asksToEnter: bringsToken,

    /** A name rebound to this machine shows in Host, a foreign page in Origin and Sec-Fetch-Site. */
    refusalOf(request: IncomingMessage, url: URL): Refusal | null {
      const { origin: from, 'sec-fetch-site': site = 'none' } = request.headers
      if (request.headers.host !== host) return { status: 403, what: 'The request names another host.' }
      if ((from !== undefined && from !== origin) || (site !== 'same-origin' && site !== 'none'))
        return { status: 403, what: 'The request comes from another page.' }
      if (request.method !== 'GET' && from === undefined)
        return { status: 403, what: 'The request does not say which page it comes from.' }
      if (bringsToken(request, url) || bringsCookie(request)) return null
      return { status: 401, what: 'Whorl answers only the browser that opened its secret address.' }
    },
  }
}
export type Access = ReturnType<typeof createAccess>
