import { afterEach, beforeEach, expect, it, vi } from 'vitest'
import type { HostEvent } from '../../../core/contract/calls.ts'
import { serveCall } from '../../../electron/service/serve-call.ts'
import { standInHost } from './stand-in-host.ts'

// All of it in one moment, however busy the machine.
beforeEach(() => void vi.useFakeTimers({ toFake: ['performance'] }))
afterEach(() => void vi.useRealTimers())

it('says the first and the last of each thing that is done, however soon after another', async () => {
  const { host } = standInHost({
    'clips.read': async (_, { progress }) => {
      for (const done of [0, 1, 2, 3]) progress({ what: 'Looking at frames', done, total: 3 })
      for (const done of [0, 1, 2]) progress({ what: 'Reading flights', done, total: 2 })
      return { hitIds: [], said: '' }
    },
  })
  const events: HostEvent[] = []
  host.bus.on(event => events.push(event))
  const asked = { name: 'clips.read', input: { clipId: 'c' }, callId: 'one' }
  await serveCall(host, asked, new AbortController().signal)
  const said = events.flatMap(event => (event.kind === 'progress' ? [`${event.what} ${event.done}`] : []))
  expect(said).toEqual([
    'Looking at frames 0',
    'Looking at frames 3',
    'Reading flights 0',
    'Reading flights 2',
  ])
})
