import type { Bridge } from '../../core/contract/bridge.ts'
import type { Host } from '../../core/contract/calls.ts'
import { WhorlError } from '../../core/contract/problem.ts'
import { fetchFrame } from './fetch-frame.ts'
import { followProgress } from './follow-progress.ts'
import { HostProblem } from './host.ts'

/** The host behind the desktop's preload bridge. */
export function desktopHost(bridge: Bridge): Host {
  const on: Host['on'] = listener => bridge.on(listener)
  return {
    call: async (name, input, options = {}) => {
      const callId = options.callId ?? crypto.randomUUID()
      const stop = followProgress(on, callId, options.onProgress)
      const cancel = () => bridge.cancel(callId)
      options.signal?.addEventListener('abort', cancel)
      try {
        options.signal?.throwIfAborted()
        const outcome = await bridge.call(name, input, callId)
        if (!outcome.ok) throw new HostProblem(outcome.problem)
        return outcome.answer
      } finally {
        options.signal?.removeEventListener('abort', cancel)
        stop()
      }
    },
    frame: fetchFrame,
    on,
    pathOf: async file => {
      const path = bridge.pathOf(file)
      if (path === '')
        throw new HostProblem(new WhorlError('file-not-found', { path: file.name }).toProblem())
      return path
    },
    // The window waits for them (`beforeClose`).
    areSafe: () => true,
    handOver: calls => {
      bridge.call('steps.handOver', { steps: [...calls] }, crypto.randomUUID()).catch(() => {})
    },
    beforeClose: written => bridge.beforeClose(written),
  }
}
