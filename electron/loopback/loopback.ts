import { createServer, type IncomingMessage, type ServerResponse } from 'node:http'
import type { AddressInfo } from 'node:net'
import { addresses } from '../../core/contract/bridge.ts'
import { WhorlError } from '../../core/contract/problem.ts'
import type { AppHost } from '../service/app-host.ts'
import type { PageFile } from '../service/page-files.ts'
import { problemReply } from '../service/replies.ts'
import { type Access, createAccess } from './access.ts'
import { streamEvents } from './events.ts'
import { answer, type Limits } from './routes.ts'
import { goneSignal, send } from './send.ts'

export type Loopback = { address: string; port: number; close(): Promise<void> }
export type LoopbackOptions = {
  page: ReadonlyMap<string, PageFile>
  /** 0 or left out: any that is free. */
  port?: number
  limits?: Partial<Limits>
}

const limitsUnlessSaid: Limits = { callBytes: 8e6, uploadBytes: 16e9 }

/**
 * The app in a browser of this machine: one server on 127.0.0.1 that answers nobody without the secret of
 * its address. Rejects with `port-taken` where the port is in use.
 */
export async function startLoopback(host: AppHost, options: LoopbackOptions): Promise<Loopback> {
  const limits = { ...limitsUnlessSaid, ...options.limits }
  const server = createServer()
  // a large upload takes as long as it takes
  server.requestTimeout = 0
  await new Promise<void>((resolve, reject) => {
    server.once('error', error => reject(portProblem(error, options.port ?? 0)))
    server.listen({ host: '127.0.0.1', port: options.port ?? 0, exclusive: true }, resolve)
  })
  const { port } = server.address() as AddressInfo
  const access = createAccess(port)
  server.on(
    'request',
    (request, response) => void serve(host, options.page, limits, access, request, response),
  )
  return {
    address: access.address,
    port,
    close: () =>
      new Promise(resolve => {
        server.close(() => resolve())
        server.closeAllConnections()
      }),
  }
}

const portProblem = (error: Error, port: number): Error =>
  (error as NodeJS.ErrnoException).code === 'EADDRINUSE' || (error as NodeJS.ErrnoException).code === 'EACCES'
    ? new WhorlError('port-taken', { port }, { cause: error })
    : error

async function serve(
  host: AppHost,
  page: ReadonlyMap<string, PageFile>,
  limits: Limits,
  access: Access,
  request: IncomingMessage,
  response: ServerResponse,
): Promise<void> {
  try {
    const url = new URL(request.url ?? '/', access.origin)
    const refusal = access.refusalOf(request, url)
    if (refusal) return refuse(response, refusal)
    if (access.asksToEnter(request, url)) {
      const headers = { location: '/', 'set-cookie': access.setCookie }
      return send(response, { status: 303, headers, body: '' })
    }
    if (request.method === 'GET' && url.pathname === addresses.events) return streamEvents(host, response)
    const signal = goneSignal(response)
    send(response, await answer(host, page, limits, { request, url, signal }))
  } catch (error) {
    const reply = problemReply(error)
    send(response, { ...reply, headers: { ...reply.headers, connection: 'close' } })
  }
}

/** The rest of a refused request is not waited for. */
function refuse(response: ServerResponse, { status, what }: { status: number; what: string }): void {
  const reply = problemReply(new WhorlError('not-let-in', { what }))
  send(response, { ...reply, status, headers: { ...reply.headers, connection: 'close' } })
}
