import { cleanup, fireEvent, screen, waitFor } from '@testing-library/react'
import { afterEach, describe, expect, it } from 'vitest'
import type { DayState, DayTurn } from '../../../core/contract/test-day.ts'
import { DayList } from '../../../renderer/screens/sessions/day/day-list.tsx'
import { shownOn } from '../shown.tsx'
import { manyOf } from '../stand-in-data.ts'
import { standInHost } from '../stand-in-host.ts'

afterEach(cleanup)

const turn = (place: number, given: Partial<DayTurn>): DayTurn => ({
  place,
  block: 0,
  setUpId: `u${place}`,
  paddle: 'Venn',
  setUp: 'stock',
  hits: 2,
  isReference: false,
  freshBall: false,
  leftOut: false,
  clips: [],
  ...given,
})
const clip = (name: string, trouble: string | null = null) => ({ clipId: name, name, hits: 0, trouble })
const day: DayState = {
  clipHolds: 'hit',
  seed: 1,
  next: 1,
  turns: [
    turn(0, { paddle: 'Hall paddle', isReference: true, clips: [clip('a.mp4'), clip('b.mp4')] }),
    turn(1, {
      paddle: 'Heron',
      setUp: 'weighted',
      freshBall: true,
      clips: [clip('c.mp4', 'Pictures are mixed. Get the file.')],
    }),
    turn(2, { block: 1, leftOut: true }),
  ],
  unplaced: [clip('d.mp4')],
}
const shown = (state: DayState) => {
  const host = standInHost(manyOf({ sessions: 1, clips: 0, hits: 0 }), {
    'day.state': () => state,
    'day.place': () => state,
    'day.leaveOut': () => state,
  })
  shownOn(host, <DayList sessionId="session-0" />)
  return host
}

describe('a test day', () => {
  it('says what is next, what is missing and when to take a fresh ball', async () => {
    shown(day)
    expect((await screen.findByRole('status')).textContent).toMatch(
      /Next: Heron \/ weighted, 2.clips\. Take a fresh ball\./,
    )
    // Two turns of two clips, the third left out; the mixed clip does not count.
    expect(screen.getByText(/2 of 4.clips, 1.clip to film again/)).toBeTruthy()
    expect(screen.getByRole('img', { name: 'done' })).toBeTruthy()
    expect(screen.getByRole('img', { name: 'open, a clip to film again' })).toBeTruthy()
    expect(screen.getByText('left out')).toBeTruthy()
  })

  it('opens a turn to its clips, says what is wrong with one, and moves it', async () => {
    const host = shown(day)
    fireEvent.click(await screen.findByRole('button', { name: /Heron/ }))
    expect(screen.getByText('Film it again: Pictures are mixed. Get the file.')).toBeTruthy()
    fireEvent.change(screen.getByLabelText('Turn of c.mp4'), { target: { value: '0' } })
    await waitFor(() =>
      expect(host.seen).toContainEqual({ name: 'day.place', input: { clipId: 'c.mp4', place: 0 } }),
    )
    fireEvent.click(screen.getByRole('button', { name: 'Leave this turn out' }))
    await waitFor(() =>
      expect(host.seen).toContainEqual({
        name: 'day.leaveOut',
        input: { sessionId: 'session-0', place: 1, leftOut: true },
      }),
    )
  })

  it('puts a clip that is on no turn on one', async () => {
    const host = shown(day)
    fireEvent.change(await screen.findByLabelText('Turn of d.mp4'), { target: { value: '1' } })
    await waitFor(() =>
      expect(host.seen).toContainEqual({ name: 'day.place', input: { clipId: 'd.mp4', place: 1 } }),
    )
  })

  it('that is filmed says so', async () => {
    shown({ ...day, next: null, turns: day.turns.slice(0, 1), unplaced: [] })
    expect((await screen.findByRole('status')).textContent).toBe('All is filmed.')
  })
})
