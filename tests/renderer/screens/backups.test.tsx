import { cleanup, fireEvent, screen, waitFor } from '@testing-library/react'
import { afterEach, expect, it } from 'vitest'
import { WhorlError } from '../../../core/contract/problem.ts'
import { Backups } from '../../../renderer/screens/sessions/backups.tsx'
import { shownOn } from '../shown.tsx'
import { manyOf } from '../stand-in-data.ts'
import { standInHost } from '../stand-in-host.ts'

afterEach(cleanup)
const data = () => manyOf({ sessions: 1, clips: 1, hits: 1 })
const backups = ['2026-05-02T09-00-00-000Z', '2026-05-01T09-00-00-000Z'].map(stamp => ({
  name: `workspace ${stamp}.sqlite`,
  path: `/home/bench/whorl/backups/workspace ${stamp}.sqlite`,
  madeAt: stamp.replace(/-(\d\d)-(\d\d)-(\d{3})Z/, ':$1:$2.$3Z'),
  bytes: 1_240_000,
}))

it('goes back to a backup only after it was asked once more, and says what is kept', async () => {
  const host = standInHost({ ...data(), backups })
  shownOn(host, <Backups />)
  await screen.findByText(/latest 2 May 2026/)
  fireEvent.click(screen.getAllByRole('button', { name: 'Go back to this one', hidden: true })[1]!)
  expect(host.seen.some(({ name }) => name === 'backups.restore')).toBe(false)
  expect(screen.getByText(/What is here now becomes a backup itself/)).toBeTruthy()
  fireEvent.click(screen.getByRole('button', { name: 'Go back', hidden: true }))
  await waitFor(() =>
    expect(host.seen.at(-1)).toEqual({ name: 'backups.restore', input: { name: backups[1]!.name } }),
  )
})

it('says why the last backup could not be made', async () => {
  const problem = new WhorlError('disk-full', { path: '/home/bench/whorl' }).toProblem()
  shownOn(standInHost(data(), { 'backups.list': () => ({ backups: [], problem }) }), <Backups />)
  await screen.findByText(/none yet/)
  expect(screen.getByText(/There is no room left on the disk/)).toBeTruthy()
})
