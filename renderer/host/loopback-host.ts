import { addresses, headers } from '../../core/contract/bridge.ts'
import type { CallOptions, Host, HostEvent } from '../../core/contract/calls.ts'
import { fetchFrame } from './fetch-frame.ts'
import { followProgress } from './follow-progress.ts'
import { hostEvents } from './host-events.ts'
import { answered } from './requests.ts'

/** The host behind HTTP on this machine. The session's cookie, set by the first page, lets each request in. */
export function loopbackHost(): Host {
  const events = hostEvents(publish => {
    const source = new EventSource(addresses.events)
    source.onmessage = message => publish(JSON.parse(message.data) as HostEvent)
    return () => source.close()
  })

  /** One request whose progress comes by the event stream, under an id of our own. */
  async function ask<T>(url: string, init: RequestInit, options: CallOptions = {}): Promise<T> {
    const callId = options.callId ?? crypto.randomUUID()
    const stop = followProgress(events.on, callId, options.onProgress)
    try {
      const given = new Headers(init.headers)
      given.set(headers.callId, callId)
      const answer = await answered(url, { ...init, headers: given, signal: options.signal ?? null })
      return (await answer.json()) as T
    } finally {
      stop()
    }
  }

  return {
    call: (name, input, options) =>
      ask(
        addresses.call(name),
        { method: 'POST', headers: { 'content-type': 'application/json' }, body: JSON.stringify(input) },
        options,
      ),
    frame: fetchFrame,
    on: events.on,
    pathOf: async (file, options) => {
      const copied = await ask<{ path: string }>(
        addresses.upload(file.name),
        { method: 'PUT', body: file },
        options,
      )
      return copied.path
    },
    // A browser that is quit with its last page ends what outlives the page as well, and it carries 64 KiB at the most.
    areSafe: calls => calls.length === 0,
    handOver: steps => {
      const given = { 'content-type': 'application/json', [headers.callId]: crypto.randomUUID() }
      const kept = { method: 'POST', keepalive: true, headers: given, body: JSON.stringify({ steps }) }
      fetch(addresses.call('steps.handOver'), kept).catch(() => {})
    },
    // No page of a browser can make it wait; that is what handing over is for.
    beforeClose: () => {},
  }
}
