import { readdirSync } from 'node:fs'
import { join } from 'node:path'
import { expect, it } from 'vitest'
import type { CallName } from '../../core/contract/calls.ts'
import { calls } from '../../core/contract/calls.ts'
import { seededRandom } from '../../core/numerics/seeded-random.ts'
import { serveCall } from '../../electron/service/serve-call.ts'
import { openService } from '../electron/service/open-service.ts'
import { inputs } from '../electron/service/stand-in-host.ts'
import { spoiledJson } from './hostile/spoil-json.ts'

/** Paths of a hostile message are a person's choice to the program: here they stay in the test's own folder. */
const within = (folder: string, value: unknown): unknown =>
  JSON.parse(JSON.stringify(value ?? null), (_, each) =>
    typeof each === 'string' && /[/\\]/.test(each)
      ? join(folder, 'chosen', each.replaceAll(/[/\\.]+/g, ' '))
      : each,
  )

it.each(Object.keys(calls) as CallName[])(
  '%s answers spoiled messages or refuses them by name',
  async name => {
    const { service, folder, session, call, workspace } = openService()
    const { id: sessionId } = await session()
    await call('paddles.create', { name: 'Heron 14', notes: '' })
    const host = { service, bus: { say: () => {}, on: () => () => {} } } as unknown as Parameters<
      typeof serveCall
    >[0]
    const before = readdirSync(folder)
    for (let seed = 0; seed < 12; seed++) {
      const random = seededRandom(seed)
      const known = JSON.parse(
        JSON.stringify(inputs[name]).replaceAll('"s"', JSON.stringify(sessionId)),
      ) as unknown
      const input = within(folder, spoiledJson(known, random))
      const signal = AbortSignal.timeout(20_000)
      const outcome = await serveCall(host, { name, input, callId: 'one' }, signal)
      if (!outcome.ok)
        expect(outcome.problem.code, `seed ${seed}: ${outcome.problem.message}`).not.toBe('internal')
    }
    expect(({} as { polluted?: boolean }).polluted).toBeUndefined()
    expect(Array.isArray(workspace.sessions())).toBe(true)
    const fresh = readdirSync(folder).filter(entry => !before.includes(entry))
    expect(fresh.filter(entry => !['chosen', 'backups', 'clips'].includes(entry))).toEqual([])
  },
)
