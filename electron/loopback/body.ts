import type { IncomingMessage } from 'node:http'
import { WhorlError } from '../../core/contract/problem.ts'

/** The bytes of a request's body as they come; throws `too-large` as soon as the limit is passed. */
export async function* bytesOf(
  request: IncomingMessage,
  what: string,
  limitBytes: number,
): AsyncGenerator<Uint8Array> {
  const tooLarge = () => new WhorlError('too-large', { what, limitBytes })
  if (Number(request.headers['content-length'] ?? 0) > limitBytes) throw tooLarge()
  let bytes = 0
  for await (const chunk of request as AsyncIterable<Uint8Array>) {
    bytes += chunk.length
    if (bytes > limitBytes) throw tooLarge()
    yield chunk
  }
}

/** A request's body as JSON, or undefined where it is none (no call takes that). */
export async function jsonOf(request: IncomingMessage, limitBytes: number): Promise<unknown> {
  const chunks: Uint8Array[] = []
  for await (const chunk of bytesOf(request, 'The request', limitBytes)) chunks.push(chunk)
  try {
    return JSON.parse(Buffer.concat(chunks).toString('utf8')) as unknown
  } catch {
    return undefined
  }
}
