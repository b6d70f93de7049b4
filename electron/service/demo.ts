import type { Service } from '../../core/contract/calls.ts'
import { fillSeason } from './demo-season/fill-season.ts'
import { fillDemo } from './fill-demo.ts'
import type { Parts } from './parts.ts'
import { places } from './places.ts'

/** The sample clips, worked through, and a season of invented paddles: the same as the command line's demo. */
export const demoCalls = (parts: Parts): Pick<Service, 'demo.fill'> => ({
  'demo.fill': async (_, { signal, progress }) => {
    const sessionId = await fillDemo(parts, places.samples, { signal, progress })
    await fillSeason(parts.workspace, places.samples, { signal, progress })
    for (const what of ['paddles', 'sessions', 'clips', 'hits'] as const)
      parts.bus.say({ kind: 'changed', what, id: null })
    return { sessionId }
  },
})
