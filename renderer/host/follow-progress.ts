import type { CallOptions, Host } from '../../core/contract/calls.ts'

/** Hands one call's progress events on until the returned function is called. */
export function followProgress(
  on: Host['on'],
  callId: string,
  onProgress: CallOptions['onProgress'],
): () => void {
  if (!onProgress) return () => {}
  return on(event => {
    if (event.kind === 'progress' && event.callId === callId) {
      onProgress({ what: event.what, done: event.done, total: event.total })
    }
  })
}
