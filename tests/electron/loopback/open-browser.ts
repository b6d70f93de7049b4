import { afterEach, vi } from 'vitest'
import type { Loopback } from '../../../electron/loopback/loopback.ts'

/** What a browser keeps after it opened the secret address once. */
export type BrowserState = { origin: string; cookie: string }

export async function enter({ address }: Loopback): Promise<BrowserState> {
  const answer = await fetch(address, { redirect: 'manual' })
  const cookie = answer.headers.get('set-cookie')?.split(';')[0]
  if (answer.status !== 303 || !cookie) throw new Error(`The secret address answered ${answer.status}.`)
  return { origin: new URL(address).origin, cookie }
}

/** A request as the browser sends it from the app's own page. */
export const fetchFrom =
  ({ origin, cookie }: BrowserState) =>
  (url: string | URL, init: RequestInit = {}): Promise<Response> => {
    const headers = new Headers(init.headers)
    headers.set('cookie', cookie)
    if ((init.method ?? 'GET') !== 'GET') headers.set('origin', origin)
    const duplex = init.body ? { duplex: 'half' } : {}
    return realFetch(new URL(url, origin), { ...init, ...duplex, headers })
  }
const realFetch = globalThis.fetch

/** Gives the page's code what it finds in a browser: `fetch` with the cookie, and `EventSource`. */
export function stubBrowser(state: BrowserState): void {
  const fetchHere = fetchFrom(state)
  vi.stubGlobal('fetch', fetchHere)
  vi.stubGlobal(
    'EventSource',
    class {
      onmessage: ((message: { data: string }) => void) | null = null
      readonly #stop = new AbortController()
      constructor(url: string) {
        opened.push(this)
        void this.#listen(url).catch(() => {})
      }
      async #listen(url: string) {
        const answer = await fetchHere(url, { signal: this.#stop.signal })
        let text = ''
        for await (const chunk of answer.body!.pipeThrough(new TextDecoderStream())) {
          text += chunk
          const messages = text.split('\n\n')
          text = messages.pop()!
          for (const message of messages)
            if (message.startsWith('data: ')) this.onmessage?.({ data: message.slice(6) })
        }
      }
      close() {
        this.#stop.abort()
      }
    },
  )
}
const opened: { close(): void }[] = []

afterEach(() => {
  for (const source of opened.splice(0)) source.close()
  vi.unstubAllGlobals()
})
