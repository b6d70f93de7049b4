import type { Service } from '../../core/contract/calls.ts'
import { placeOfString } from '../export/postgres-place.ts'
import { queueState } from '../queue/state.ts'
import type { KnownServers } from './known-servers.ts'
import type { Parts } from './parts.ts'

const setting = 'shared-queue'

/** The workspace remembers the server by its address and database alone. */
export const sharedQueueCalls = (
  { workspace }: Parts,
  servers: KnownServers,
): Pick<Service, 'sharedQueue.look'> => ({
  'sharedQueue.look': async ({ server }) => {
    const words = server ?? workspace.setting(setting)
    if (words === null) return null
    const state = await queueState(servers.wholeOf(words))
    if (server !== null) workspace.keepSetting(setting, placeOfString(server))
    return state
  },
})
