import { act, cleanup, fireEvent, screen, waitFor, within } from '@testing-library/react'
import { afterEach, beforeEach, describe, expect, it, vi } from 'vitest'
import { BenchScreen } from '../../../renderer/screens/bench/bench-screen.tsx'
import { runKey, useKeyGroups } from '../../../renderer/state/keys.ts'
import { shownOn } from '../shown.tsx'
import { type BenchHost, benchHost } from './bench-host.ts'
import { standInPictures } from './stand-in-pictures.ts'
import { logoIn, outlineIn, turningBall } from './turning-ball.ts'

const outlines = [12, 24, 35].map(frame => ({ frame, ...outlineIn(turningBall, frame) }))
const seen = (from: number, to: number) =>
  Array.from({ length: to - from + 1 }, (_, i) => from + i).map(frame => ({
    kind: 'point' as const,
    frame,
    mark: 'logo',
    ...logoIn(turningBall, frame),
  }))

beforeEach(() => {
  document.addEventListener('keydown', runKey)
  standInPictures()
})
afterEach(() => {
  cleanup()
  document.removeEventListener('keydown', runKey)
  vi.unstubAllGlobals()
})

async function shown(given: Parameters<typeof benchHost>[0] = { marks: { outlines } }): Promise<BenchHost> {
  const host = benchHost(given)
  shownOn(host, <BenchScreen hitId="hit-1" />)
  await screen.findByRole('slider', { name: 'Frame' })
  await waitFor(() => expect(useKeyGroups.getState().groups).toHaveLength(5))
  return host
}
const press = (key: string, more: object = {}) => fireEvent.keyDown(document.body, { key, ...more })
const frame = () => screen.getByRole('slider', { name: 'Frame' }).getAttribute('aria-valuenow')
/** The figure in sight is the truth, by its own band. */
const expectTruth = (rpm: number) => {
  const text = document.querySelector('.headline-figure')!.textContent!
  const [, read, half] = /^([\d.]+)\s*±\s*([\d.]+)\s*rpm$/.exec(text)!.map(Number)
  expect(Math.abs(read! - rpm)).toBeLessThanOrEqual(half!)
  expect(half).toBeLessThan(rpm / 200)
}
const asks = () => document.querySelector('.ask-line')?.textContent

describe('the bench by keys alone', () => {
  it('runs so slowly that no clip can flash more than three times in a second', async () => {
    await shown()
    vi.useFakeTimers({ toFake: ['setTimeout', 'clearTimeout'] })
    try {
      press(' ')
      const shownAt: number[] = []
      let last = frame()
      for (let milliseconds = 0; milliseconds < 8000; milliseconds += 10) {
        act(() => void vi.advanceTimersByTime(10))
        if (frame() !== last) shownAt.push(milliseconds)
        last = frame()
      }
      expect(shownAt.length).toBeGreaterThan(30)
      // At worst every change is a flash's half (WCAG 2.2, 2.3.1: a pair of opposing changes).
      const inOneSecond = shownAt.map(from => shownAt.filter(at => at >= from && at < from + 1000).length)
      expect(Math.max(...inOneSecond) / 2).toBeLessThanOrEqual(3)
    } finally {
      vi.useRealTimers()
    }
  })

  it('steps by one and by five, to the ends of the hit and to the next frame without the mark', async () => {
    await shown({ marks: { outlines, sightings: seen(12, 15) } })
    expect(frame()).toBe('12')
    press('d')
    press('d')
    press('a')
    expect(frame()).toBe('13')
    press('D', { shiftKey: true })
    expect(frame()).toBe('18')
    press('e')
    expect(frame()).toBe('35')
    press('q')
    expect(frame()).toBe('12')
    press('s')
    expect(frame()).toBe('16')
  })

  it('marks, hides, takes off, undoes, settles the window and accepts', async () => {
    const host = await shown({ marks: { outlines, sightings: seen(12, 30) } })
    press('s')
    press('Enter')
    press('x')
    await waitFor(() =>
      expect(
        host
          .marks()
          .sightings.map(s => s.kind)
          .slice(-2),
      ).toEqual(['point', 'hidden']),
    )
    press('z')
    await waitFor(() => expect(host.marks().sightings).toHaveLength(20))
    press('q')
    press('Backspace')
    await waitFor(() => expect(host.marks().sightings[0]!.frame).toBe(13))
    press('d')
    press('c')
    press('e')
    press('v')
    await waitFor(() => expect(host.marks().window).toEqual({ fromFrame: 13, toFrame: 35 }))
    press('g')
    await waitFor(() => expect(host.marks().verdict).toEqual({ state: 'accepted', reason: '' }))
    expect(await screen.findByText(/^Accepted/)).toBeTruthy()
  })

  it('gives the outline: closer, three points, and the circle kept', async () => {
    const host = await shown({})
    expect(asks()).toBe('Click the ball to come closer')
    press('Enter')
    expect(asks()).toBe('Mark three points on the rim')
    for (const [key, times] of [
      ['ArrowRight', 3],
      ['ArrowDown', 3],
      ['ArrowLeft', 6],
    ] as const) {
      for (let i = 0; i < times; i++) press(key, { shiftKey: true })
      press('Enter')
    }
    await waitFor(() => expect(host.marks().outlines).toHaveLength(1))
    expect(frame()).toBe('35')
  })

  it('holds back with a reason, and not without one', async () => {
    const host = await shown({ marks: { outlines, sightings: seen(12, 20) } })
    press('b')
    const reason = await screen.findByLabelText('Why is it held back?')
    const hold = screen.getByRole('button', { name: 'Hold back' })
    expect(hold).toHaveProperty('disabled', true)
    fireEvent.change(reason, { target: { value: 'clipped the net' } })
    fireEvent.click(hold)
    await waitFor(() =>
      expect(host.marks().verdict).toEqual({ state: 'held-back', reason: 'clipped the net' }),
    )
  })
})

describe('the reading on the bench', () => {
  it('waits for the second mark, then shows the figure, its flag and what it rests on', async () => {
    await shown({ marks: { outlines, sightings: seen(12, 12) } })
    const reading = within(screen.getByRole('complementary', { name: 'Reading' }))
    expect(document.querySelector('.headline')!.getAttribute('data-state')).toBe('none')
    expect(reading.queryByText('clear')).toBeNull()
    cleanup()
    await shown({ marks: { outlines, sightings: seen(12, 35) } })
    const column = within(screen.getByRole('complementary', { name: 'Reading' }))
    expectTruth(turningBall.rpm)
    expect(column.getByText('clear')).toBeTruthy()
    expect(column.getByText(/^58\.3° a frame, 6\.18 a turn$/)).toBeTruthy()
    expect(column.getByText('What makes the band')).toBeTruthy()
    const table = screen.getByRole('table')
    expect(within(table).getAllByRole('row')).toHaveLength(25)
  })

  it('will not accept an ambiguous one until a candidate is chosen with a reason', async () => {
    const slow = { ...turningBall, fps: 60 }
    const sightings = seen(12, 35).map(s => ({ ...s, ...logoIn(slow, s.frame) }))
    const host = await shown({ ball: slow, marks: { outlines, sightings } })
    expect(screen.getByRole('button', { name: 'Accept' })).toHaveProperty('disabled', true)
    press('g')
    fireEvent.click(screen.getByRole('button', { name: /^233\d\s?clockwise/ }))
    const reason = await screen.findByLabelText(/How do you know it was 233\d clockwise/)
    fireEvent.change(reason, { target: { value: 'the shot was topspin' } })
    fireEvent.click(screen.getByRole('button', { name: 'Settle on it' }))
    await waitFor(() => expect(host.marks().settled).toMatchObject({ sense: 'clockwise' }))
    await waitFor(() => expectTruth(turningBall.rpm))
    fireEvent.click(screen.getByRole('button', { name: 'Accept' }))
    await waitFor(() => expect(host.marks().verdict.state).toBe('accepted'))
  })

  it('shows a mark that lies far off with its weight, and goes there on a click', async () => {
    const sightings = seen(12, 35).map(s => (s.frame === 20 ? { ...s, xPx: s.xPx + 9, yPx: s.yPx - 9 } : s))
    await shown({ marks: { outlines, sightings } })
    fireEvent.click(screen.getByRole('button', { name: /^frame 20\s*, off by/ }))
    expect(frame()).toBe('20')
  })

  it('asks for a capture rate that nobody knows, in its own place, and reads once it is told', async () => {
    await shown({ captureFps: null, marks: { outlines, sightings: seen(12, 35) } })
    const column = within(screen.getByRole('complementary', { name: 'Reading' }))
    fireEvent.click(column.getByRole('button', { name: '240' }))
    await waitFor(() => expectTruth(turningBall.rpm))
  })
})

describe('a save that fails', () => {
  it('is told on the stage where the mark was made, and the mark is gone again', async () => {
    await shown({ marks: { outlines, sightings: seen(12, 18) }, refuse: () => true })
    press('s')
    press('x')
    const note = await screen.findByRole('alert')
    expect(note.getAttribute('data-code')).toBe('disk-full')
    expect(note.closest('.stage')).toBeTruthy()
    expect(within(screen.getByRole('table')).getAllByRole('row')).toHaveLength(8)
  })
})

describe('a hit that cannot be opened', () => {
  it('says why, and tries again', async () => {
    const host = benchHost({ marks: { outlines } })
    host.data.clips[0]!.problem = {
      schema: 'whorl.error/1',
      code: 'file-not-found',
      message: 'Gone.',
      hint: 'Find it.',
    }
    shownOn(host, <BenchScreen hitId="hit-1" />)
    expect((await screen.findByRole('alert')).textContent).toContain('Gone.')
    host.data.clips[0]!.problem = null
    fireEvent.click(screen.getByRole('button', { name: 'Try again' }))
    expect(await screen.findByRole('slider', { name: 'Frame' })).toBeTruthy()
  })
})
