import type { IncomingMessage } from 'node:http'
import { addresses, headers } from '../../core/contract/bridge.ts'
import { WhorlError } from '../../core/contract/problem.ts'
import type { AppHost } from '../service/app-host.ts'
import type { PageFile } from '../service/page-files.ts'
import { frameReply, outcomeReply, pageReply, type Reply } from '../service/replies.ts'
import { serveCall } from '../service/serve-call.ts'
import { bytesOf, jsonOf } from './body.ts'

export type Limits = { callBytes: number; uploadBytes: number }
export type Asked = { request: IncomingMessage; url: URL; signal: AbortSignal }

/** Finds the answer to a request that was let in. What nobody answers is a plain 404. */
export async function answer(
  host: AppHost,
  page: ReadonlyMap<string, PageFile>,
  limits: Limits,
  { request, url, signal }: Asked,
): Promise<Reply> {
  const to = `${request.method} ${url.pathname}`
  if (to.startsWith('POST /call/')) {
    const name = url.pathname.slice('/call/'.length)
    const input = await jsonOf(request, limits.callBytes)
    const asked = { name, input, callId: request.headers[headers.callId] }
    return outcomeReply(await serveCall(host, asked, signal))
  }
  if (to.startsWith('GET /frame/')) return frameReply(host, url, signal)
  if (to === `PUT ${uploadPath}`) return receive(host, request, url, limits, signal)
  return pageReply(page, request.method ?? '', url)
}

const uploadPath = addresses.upload('').split('?')[0]

async function receive(
  host: AppHost,
  request: IncomingMessage,
  url: URL,
  limits: Limits,
  signal: AbortSignal,
): Promise<Reply> {
  const name = url.searchParams.get('name')
  if (!name) throw new WhorlError('bad-payload', { call: 'upload', where: 'name', what: 'there is none' })
  const bytes = bytesOf(request, name, limits.uploadBytes)
  const path = await host.receive({ name, bytes, signal })
  return outcomeReply({ ok: true, answer: { path } })
}
