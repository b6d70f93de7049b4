import type { HostEvent } from '../../core/contract/calls.ts'

type Listener = (event: HostEvent) => void

/** One stream shared by all listeners: opened with the first, closed with the last. */
export function hostEvents(open: (publish: Listener) => () => void) {
  const listeners = new Set<Listener>()
  let close: (() => void) | null = null
  const publish: Listener = event => {
    for (const listener of [...listeners]) listener(event)
  }
  return {
    on(listener: Listener) {
      const own: Listener = event => listener(event)
      listeners.add(own)
      close ??= open(publish)
      return () => {
        listeners.delete(own)
        if (listeners.size > 0) return
        close?.()
        close = null
      }
    },
  }
}
