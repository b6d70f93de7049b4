import type { Service } from '../../core/contract/calls.ts'
import { WhorlError } from '../../core/contract/problem.ts'
import { placeOfString } from '../export/postgres-place.ts'
import { queueState } from '../queue/state.ts'
import type { KnownServers } from './known-servers.ts'
import { putElsewhere } from './other-machines.ts'
import type { Parts } from './parts.ts'

const setting = 'shared-queue'
type Calls = `sharedQueue.${'look' | 'place' | 'put' | 'take' | 'trouble' | 'leave'}`

/** The workspace remembers the server by its address and database alone. */
export const sharedQueueCalls = (parts: Parts, servers: KnownServers): Pick<Service, Calls> => {
  const { workspace, queue, bus, taking } = parts
  const remember = (server: string) => workspace.keepSetting(setting, placeOfString(server))
  return {
    'sharedQueue.look': async ({ server }) => {
      const words = server ?? workspace.setting(setting)
      if (words === null) return null
      const state = await queueState(servers.wholeOf(words))
      if (server !== null) remember(server)
      return state
    },
    'sharedQueue.place': async () => workspace.setting(setting),
    'sharedQueue.put': async ({ sessionId, server }, job) => {
      const words = server ?? workspace.setting(setting)
      if (words === null) throw new WhorlError('queue-no-server', {})
      await putElsewhere(parts, sessionId, servers.wholeOf(words), job)
      if (server !== null) remember(server)
      return queue.state(sessionId)
    },
    'sharedQueue.take': async ({ sessionId, server }) => {
      await taking.take(sessionId, server)
      return queue.state(sessionId)
    },
    'sharedQueue.trouble': async ({ sessionId }) => taking.problem(sessionId),
    'sharedQueue.leave': async ({ sessionId }) => {
      workspace.takeFromQueue(sessionId, 'elsewhere')
      bus.say({ kind: 'changed', what: 'queue', id: sessionId })
      return queue.state(sessionId)
    },
  }
}
