import type { Bridge } from '../../core/contract/bridge.ts'
import type { Host } from '../../core/contract/calls.ts'
import { desktopHost } from './desktop-host.ts'
import { loopbackHost } from './loopback-host.ts'

declare global {
  var whorl: Bridge | undefined
}

/** The shell that this page runs in: the only place that knows there are two. */
export function pickHost(): Host {
  return globalThis.whorl ? desktopHost(globalThis.whorl) : loopbackHost()
}
