import type { Service } from '../../core/contract/calls.ts'
import type { Parts } from './parts.ts'

type Calls = 'sessions.list' | 'sessions.create' | 'sessions.update' | 'sessions.remove'

/** A changed camera, ball or limit changes figures: the session's hits are read again at once. */
export const sessionCalls = ({ workspace, bus, reader }: Parts): Pick<Service, Calls> => ({
  'sessions.list': async () => workspace.sessions(),
  'sessions.create': async ({ details }) => {
    const session = workspace.createSession(details)
    bus.say({ kind: 'changed', what: 'sessions', id: session.id })
    return session
  },
  'sessions.update': async ({ sessionId, details }) => {
    const session = workspace.updateSession(sessionId, details)
    reader.readStale({ sessionId })
    bus.say({ kind: 'changed', what: 'sessions', id: sessionId })
    bus.say({ kind: 'changed', what: 'hits', id: null })
    return session
  },
  'sessions.remove': async ({ sessionId }) => {
    workspace.removeSession(sessionId)
    bus.say({ kind: 'changed', what: 'sessions', id: sessionId })
    bus.say({ kind: 'changed', what: 'hits', id: null })
    return null
  },
})
