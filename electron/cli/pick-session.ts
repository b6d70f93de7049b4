import { WhorlError } from '../../core/contract/problem.ts'
import type { Ask } from './with-host.ts'

/** The session of a day, or of a day and a place where there are several. Throws the `usage` problem. */
export async function pickSession(day: string, ask: Ask): Promise<string> {
  const sessions = await ask('sessions.list', {})
  const [session, second] = sessions.filter(one => one.day === day || `${one.day} ${one.place}` === day)
  if (session && !second) return session.id
  const known = sessions.map(one => (second ? `“${one.day} ${one.place}”` : one.day))
  throw new WhorlError('usage', {
    what: second ? `There are several sessions of ${day}.` : `There is no session of ${day}.`,
    hint: `Name one of ${[...new Set(known)].slice(0, 12).join(', ')}.`,
  })
}
