import { act, cleanup, screen, waitFor } from '@testing-library/react'
import { afterEach, expect, it } from 'vitest'
import { WhorlError } from '../../../core/contract/problem.ts'
import { HostProblem } from '../../../renderer/host/host.ts'
import { type Act, useAct, useAnswer } from '../../../renderer/state/answers.ts'
import { shownOn } from '../shown.tsx'
import { manyOf } from '../stand-in-data.ts'
import { standInHost } from '../stand-in-host.ts'

afterEach(cleanup)
const small = () => manyOf({ sessions: 2, clips: 4, hits: 6 })

function Count({ on = ['sessions'] }: { on?: 'sessions'[] }) {
  const { value, problem } = useAnswer('sessions.list', {}, on)
  return (
    <p>
      {value === null ? 'none' : value.length} {problem?.code}
    </p>
  )
}

it('asks again when the host says that something changed, once for many changes', async () => {
  const host = standInHost(small())
  shownOn(host, <Count />)
  await screen.findByText('2')
  host.data.sessions = host.data.sessions.slice(1)
  act(() => {
    for (let times = 0; times < 50; times++) host.say({ kind: 'changed', what: 'sessions', id: null })
  })
  await screen.findByText('1')
  expect(host.seen.filter(call => call.name === 'sessions.list')).toHaveLength(2)
})

it('leaves changes of other things alone', async () => {
  const host = standInHost(small())
  shownOn(host, <Count />)
  await screen.findByText('2')
  host.say({ kind: 'changed', what: 'paddles', id: null })
  await new Promise(resolve => setTimeout(resolve, 60))
  expect(host.seen).toHaveLength(1)
})

it('shows an answer even while changes never stop', async () => {
  const host = standInHost(small(), {
    'sessions.list': async () => {
      await new Promise(resolve => setTimeout(resolve, 80))
      return small().sessions
    },
  })
  shownOn(host, <Count />)
  const changes = setInterval(() => host.say({ kind: 'changed', what: 'sessions', id: null }), 35)
  await screen.findByText('2')
  clearInterval(changes)
})

it('keeps the last good value beside a problem', async () => {
  let broken = false
  const host = standInHost(small(), {
    'sessions.list': () => {
      if (broken) throw new HostProblem(new WhorlError('disk-full', { path: '/w' }).toProblem())
      return small().sessions
    },
  })
  shownOn(host, <Count />)
  await screen.findByText('2')
  broken = true
  act(() => host.say({ kind: 'changed', what: 'sessions', id: null }))
  await screen.findByText('2 disk-full')
})

function Doing({ work, taken }: { work: Parameters<Act['run']>[0]; taken: (act: Act) => void }) {
  const doing = useAct()
  taken(doing)
  return (
    <p>
      {doing.busy ? 'busy' : 'idle'} {doing.progress?.done} {doing.problem?.code}
      <button type="button" onClick={() => doing.run(work)}>
        go
      </button>
    </p>
  )
}

it('tells progress, and a cancelled step leaves no problem', async () => {
  const host = standInHost(small())
  let doing!: Act
  const work: Parameters<Act['run']>[0] = ({ signal, onProgress }) =>
    new Promise((_, reject) => {
      onProgress?.({ what: 'Reading', done: 3, total: 9 })
      signal?.addEventListener('abort', () =>
        reject(new HostProblem(new WhorlError('cancelled', { what: 'It' }).toProblem())),
      )
    })
  shownOn(host, <Doing work={work} taken={each => (doing = each)} />)
  act(() => screen.getByText('go').click())
  await screen.findByText(/busy 3/)
  act(() => doing.cancel())
  await waitFor(() => expect(screen.getByText(/idle/).textContent).toBe('idle  go'))
})

it('says what went wrong with a step', async () => {
  const work = () =>
    Promise.reject(
      new HostProblem(new WhorlError('name-taken', { what: 'paddle', name: 'Tarn' }).toProblem()),
    )
  shownOn(standInHost(small()), <Doing work={work} taken={() => {}} />)
  act(() => screen.getByText('go').click())
  await screen.findByText(/idle name-taken/)
})
