import type { ServerResponse } from 'node:http'
import { securityHeaders } from '../service/page-security.ts'
import type { Reply } from '../service/replies.ts'

/** Sends a whole answer with the security headers that every answer carries. */
export function send(response: ServerResponse, { status, headers, body, done }: Reply): void {
  if (response.destroyed || response.headersSent) {
    done?.()
    return
  }
  if (done) response.once('close', done)
  response.writeHead(status, {
    ...securityHeaders,
    ...headers,
    'content-length': typeof body === 'string' ? Buffer.byteLength(body) : body.length,
  })
  response.end(body)
}

/** Aborted when the asker goes away before the answer is through: a closed request cancels its work. */
export function goneSignal(response: ServerResponse): AbortSignal {
  const gone = new AbortController()
  response.on('close', () => {
    if (!response.writableFinished) gone.abort()
  })
  return gone.signal
}
