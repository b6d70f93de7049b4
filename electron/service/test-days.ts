import type { Service } from '../../core/contract/calls.ts'
import type { Parts } from './parts.ts'

type Calls = 'day.begin' | 'day.state' | 'day.place' | 'day.leaveOut'

/** The test day of a session: planned once, ticked off as clips come in. */
export const testDayCalls = ({ workspace, bus }: Parts): Pick<Service, Calls> => {
  const changed = (sessionId: string) => bus.say({ kind: 'changed', what: 'sessions', id: sessionId })
  return {
    'day.begin': async ({ details, day, clipHolds }) => {
      const session = workspace.createSession(details)
      workspace.planDay(session.id, day, clipHolds)
      changed(session.id)
      bus.say({ kind: 'changed', what: 'paddles', id: null })
      return session
    },
    'day.state': async ({ sessionId }) => workspace.testDay(sessionId),
    'day.place': async ({ clipId, place }) => {
      const state = workspace.placeClip(clipId, place)
      bus.say({ kind: 'changed', what: 'clips', id: clipId })
      bus.say({ kind: 'changed', what: 'hits', id: null })
      return state
    },
    'day.leaveOut': async ({ sessionId, place, leftOut }) => {
      const state = workspace.leaveTurnOut(sessionId, place, leftOut)
      changed(sessionId)
      return state
    },
  }
}
