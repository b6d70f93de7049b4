import type { HostEvent } from '../../core/contract/calls.ts'

/** Carries what the host says unasked to every shell that listens. */
export type Bus = {
  say(event: HostEvent): void
  /** Answers the way to stop listening. */
  on(listener: (event: HostEvent) => void): () => void
}

export function createBus(): Bus {
  const listeners = new Set<(event: HostEvent) => void>()
  return {
    say(event) {
      for (const listener of listeners) listener(event)
    },
    on(listener) {
      listeners.add(listener)
      return () => void listeners.delete(listener)
    },
  }
}
