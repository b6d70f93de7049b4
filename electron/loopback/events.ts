import type { ServerResponse } from 'node:http'
import type { AppHost } from '../service/app-host.ts'
import { securityHeaders } from '../service/page-security.ts'

const heartbeatMilliseconds = 15_000

/** Keeps the answer open and sends every event of the host on it (server-sent events, HTML standard 9.2). */
export function streamEvents(host: AppHost, response: ServerResponse): void {
  response.writeHead(200, { ...securityHeaders, 'content-type': 'text/event-stream' })
  response.write('retry: 1000\n\n')
  const stop = host.bus.on(event => response.write(`data: ${JSON.stringify(event)}\n\n`))
  const heartbeat = setInterval(() => response.write(':\n\n'), heartbeatMilliseconds)
  response.on('close', () => {
    clearInterval(heartbeat)
    stop()
  })
}
