import { addresses, headers } from '../../core/contract/bridge.ts'
import type { Host } from '../../core/contract/calls.ts'
import { answered } from './requests.ts'

/** A frame's picture by address: the same in both shells. */
export const fetchFrame: Host['frame'] = async (clipId, frame, { maxWidthPx, signal } = {}) => {
  const answer = await answered(addresses.frame(clipId, frame, maxWidthPx), { signal: signal ?? null })
  return {
    widthPx: Number(answer.headers.get(headers.widthPx)),
    heightPx: Number(answer.headers.get(headers.heightPx)),
    data: new Uint8Array(await answer.arrayBuffer()),
  }
}
