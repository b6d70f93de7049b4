import { headers, type Outcome } from '../../core/contract/bridge.ts'
import { problemOf, WhorlError } from '../../core/contract/problem.ts'
import type { AppHost } from './app-host.ts'
import type { PageFile } from './page-files.ts'

/** An answer to an address, as both shells can send it. */
export type Reply = {
  status: number
  headers: Record<string, string>
  body: Uint8Array<ArrayBuffer> | string
  /** To be called when the body is sent, or will not be: its memory is used for other pictures then. */
  done?: () => void
}

const json = (status: number, value: unknown): Reply => ({
  status,
  headers: { 'content-type': 'application/json; charset=utf-8' },
  body: JSON.stringify(value),
})

const statusOf: Partial<Record<string, number>> = {
  'bad-payload': 400,
  'not-let-in': 403,
  'not-in-workspace': 404,
  'too-large': 413,
  internal: 500,
}

/** A problem as an answer; trouble with a file or an edit is 422. */
export function problemReply(thrown: unknown): Reply {
  const problem = problemOf(thrown)
  return json(statusOf[problem.code] ?? 422, problem)
}

export const outcomeReply = (outcome: Outcome<unknown>): Reply =>
  outcome.ok ? json(200, outcome.answer) : json(statusOf[outcome.problem.code] ?? 422, outcome.problem)

const frameAddress = /^\/frame\/([A-Za-z0-9_-]{1,64})\/(\d{1,9})$/

/** Answers `addresses.frame`: the picture as I420 with its size in the headers, or the problem. */
export async function frameReply(host: AppHost, url: URL, signal: AbortSignal): Promise<Reply> {
  try {
    const [, clipId, frame] = frameAddress.exec(url.pathname) ?? []
    const asked = url.searchParams.get('maxWidthPx')
    if (clipId === undefined || (asked !== null && !/^[1-9]\d{0,4}$/.test(asked)))
      throw new WhorlError('bad-payload', { call: 'frame', where: 'its address', what: 'it does not fit' })
    const maxWidthPx = asked === null ? undefined : Number(asked)
    const picture = await host.frame(clipId, Number(frame), { maxWidthPx, signal })
    return {
      status: 200,
      headers: {
        'content-type': 'application/octet-stream',
        [headers.widthPx]: String(picture.widthPx),
        [headers.heightPx]: String(picture.heightPx),
      },
      body: picture.data,
      done: picture.done,
    }
  } catch (error) {
    return problemReply(error)
  }
}

/** One of the page's own files, or 404. */
export function pageReply(page: ReadonlyMap<string, PageFile>, method: string, url: URL): Reply {
  const file = method === 'GET' ? page.get(url.pathname) : undefined
  if (file === undefined)
    return { status: 404, headers: { 'content-type': 'text/plain' }, body: 'Not found.' }
  return { status: 200, headers: { 'content-type': file.type }, body: file.bytes }
}
