import type { AppHost } from '../service/app-host.ts'
import type { PageFile } from '../service/page-files.ts'
import { securityHeaders } from '../service/page-security.ts'
import { frameReply, pageReply } from '../service/replies.ts'
import type { ElectronParts } from './electron-parts.ts'

const scheme = 'whorl'
/** The page's address. The scheme is the app's own: nothing outside the app can be reached by it. */
export const appAddress = `${scheme}://app/`

/** The page itself, whatever stands behind its #. */
export const isAppPage = (url: string): boolean => url.split('#')[0] === appAddress

/** Must run before Electron is ready. A standard, secure scheme gives the page an origin of its own. */
export function registerScheme(protocol: ElectronParts['protocol']): void {
  const privileges = { standard: true, secure: true, supportFetchAPI: true, stream: true }
  protocol.registerSchemesAsPrivileged([{ scheme, privileges }])
}

/** Answers the page's own files and the frames of clips; everything else does not exist. */
export function serveAddresses(
  protocol: ElectronParts['session']['defaultSession']['protocol'],
  host: AppHost,
  page: ReadonlyMap<string, PageFile>,
): void {
  protocol.handle(scheme, async request => {
    const url = new URL(request.url)
    const isFrame = url.pathname.startsWith('/frame/') && request.method === 'GET'
    const reply =
      url.host === 'app' && isFrame
        ? await frameReply(host, url, request.signal)
        : pageReply(url.host === 'app' ? page : new Map(), request.method, url)
    // A response copies the bytes that it is made of.
    const response = new Response(reply.body, {
      status: reply.status,
      headers: { ...securityHeaders, ...reply.headers },
    })
    reply.done?.()
    return response
  })
}
