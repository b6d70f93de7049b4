import { type Problem, problemOf } from '../../core/contract/problem.ts'
import type { KnownServers } from './known-servers.ts'
import { takeFromElsewhere } from './other-machines.ts'
import type { Parts } from './parts.ts'

/** Takes in what other machines read, of every session that waits for it, whatever is looked at meanwhile. */
export type Taking = {
  /** Asks at once; a server is named where its place alone does not let in. @throws why it does not answer */
  take(sessionId: string, server: string | null): Promise<void>
  /** Why a session's server was not asked with success the last time. */
  problem(sessionId: string): Problem | null
  /** Takes by itself from now on, while clips are out. */
  goOn(): void
  close(): Promise<void>
}

type Needs = Pick<Parts, 'workspace' | 'prober' | 'surface' | 'bus'> & {
  servers: KnownServers
  everyMilliseconds?: number
}
type Trouble = { problem: Problem; times: number; againAt: number }

const usualPause = 3000
const longestPauseMilliseconds = 60_000
/** Of these a server gets over by itself. Another problem, a password that is not known any more, needs the person. */
const passing = ['server-away', 'target-locked']

export function createTaking({ servers, everyMilliseconds = usualPause, ...needs }: Needs): Taking {
  const { workspace, bus } = needs
  const troubles = new Map<string, Trouble>()
  let timer: NodeJS.Timeout | null = null
  let round: Promise<void> = Promise.resolve()
  let isClosed = false

  async function take(sessionId: string): Promise<void> {
    const before = troubles.get(sessionId)
    try {
      await takeFromElsewhere(needs, sessionId, servers.wholeOf)
      if (troubles.delete(sessionId)) bus.say({ kind: 'changed', what: 'queue', id: sessionId })
    } catch (thrown) {
      if (isClosed) return
      const problem = problemOf(thrown)
      const times = (before?.times ?? 0) + 1
      const pause = Math.min(longestPauseMilliseconds, everyMilliseconds * 2 ** times)
      const againAt = passing.includes(problem.code) ? performance.now() + pause : Number.POSITIVE_INFINITY
      troubles.set(sessionId, { problem, times, againAt })
      if (before?.problem.message !== problem.message)
        bus.say({ kind: 'changed', what: 'queue', id: sessionId })
      throw thrown
    }
  }

  async function takeAll(): Promise<void> {
    const out = workspace.queued().flatMap(one => (one.state === 'elsewhere' ? [one.sessionId] : []))
    for (const sessionId of troubles.keys()) if (!out.includes(sessionId)) troubles.delete(sessionId)
    for (const sessionId of new Set(out))
      if (!isClosed && performance.now() >= (troubles.get(sessionId)?.againAt ?? 0))
        await take(sessionId).catch(() => {})
  }

  function goOn(): void {
    if (timer || isClosed) return
    timer = setTimeout(() => {
      round = takeAll().then(() => {
        timer = null
        goOn()
      })
    }, everyMilliseconds)
    timer.unref()
  }

  return {
    take: async (sessionId, server) => {
      if (server !== null) servers.wholeOf(server)
      await take(sessionId)
    },
    problem: sessionId => troubles.get(sessionId)?.problem ?? null,
    goOn,
    async close() {
      isClosed = true
      if (timer) clearTimeout(timer)
      await round
    },
  }
}
