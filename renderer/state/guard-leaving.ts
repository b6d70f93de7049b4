import type { Host } from '../../core/contract/calls.ts'
import { onItsWay } from './on-its-way.ts'

/**
 * A page that goes away hands over what is still on its way: the host does each step once, also one that reaches it
 * twice. Where that is not sure to arrive, the browser asks the person to stay, which takes longer than the saving; a
 * desktop window waits by itself.
 */
export function guardLeaving(host: Host, page: Window = window): void {
  page.addEventListener('beforeunload', event => {
    if (!host.areSafe(onItsWay.calls().flat())) event.preventDefault()
  })
  page.addEventListener('pagehide', () => {
    for (const calls of onItsWay.calls()) host.handOver(calls)
  })
  // A page that a browser kept and shows again was left with its questions unanswered.
  page.addEventListener('pageshow', event => {
    if (event.persisted) page.location.reload()
  })
  host.beforeClose(onItsWay.written)
}
