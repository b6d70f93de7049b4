import type { CallAnswer, CallInput, CallName, HostEvent } from './calls.ts'
import type { Problem } from './problem.ts'

/** How a call ended, as plain data: thrown errors lose their fields on the way between processes. */
export type Outcome<T> = { ok: true; answer: T } | { ok: false; problem: Problem }

/**
 * What the desktop's preload puts on the page's global object as `whorl`, frozen. Nothing else of the
 * host can be reached from the page. Frames are fetched from `addresses.frame`, as in the loopback shell.
 */
export interface Bridge {
  call<N extends CallName>(name: N, input: CallInput<N>, callId: string): Promise<Outcome<CallAnswer<N>>>
  cancel(callId: string): void
  on(listener: (event: HostEvent) => void): () => void
  /** The path of a file that was dropped on the page; empty for a file that is not on a disk. */
  pathOf(file: File): string
  /** Before the window closes it waits for this, for a while. */
  beforeClose(written: () => Promise<void>): void
}

/**
 * Addresses that the page asks, relative to its own origin. Frames are the same in both shells; the
 * others are the loopback shell's. A failed request answers with a `whorl.error/1` document.
 */
export const addresses = {
  /** POST, JSON input, JSON answer. Closing the request cancels the call. */
  call: (name: CallName) => `/call/${name}`,
  /** GET, binary I420; its size stands in the headers below. */
  frame: (clipId: string, frame: number, maxWidthPx?: number) =>
    `/frame/${encodeURIComponent(clipId)}/${frame}${maxWidthPx ? `?maxWidthPx=${maxWidthPx}` : ''}`,
  /** GET, server-sent events: each message's data is one `HostEvent` as JSON. */
  events: '/events',
  /** PUT, the file's bytes; the answer is `{ "path" }`. */
  upload: (name: string) => `/upload?name=${encodeURIComponent(name)}`,
} as const

/** Header names on those requests and answers. */
export const headers = {
  /** Every call and upload carries an id of the caller's choice (1 to 64 of A–Z a–z 0–9 -); progress events repeat it. */
  callId: 'x-whorl-call',
  widthPx: 'x-whorl-width-px',
  heightPx: 'x-whorl-height-px',
} as const
