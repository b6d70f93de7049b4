import { cleanup, fireEvent, screen, waitFor, within } from '@testing-library/react'
import { afterEach, beforeEach, describe, expect, it, vi } from 'vitest'
import type { Reading } from '../../../core/contract/reading.ts'
import { BenchScreen } from '../../../renderer/screens/bench/bench-screen.tsx'
import { sampleReading } from '../../electron/store/sample-reading.ts'
import { shownOn } from '../shown.tsx'
import { benchHost } from './bench-host.ts'
import { standInPictures } from './stand-in-pictures.ts'
import { outlineIn, turningBall } from './turning-ball.ts'

beforeEach(standInPictures)
afterEach(() => {
  cleanup()
  vi.unstubAllGlobals()
})

const axis = { x: 0, y: 0.6, z: 0.8, tiltDeg: 37, uncertaintyDeg: 1 }
/** The bench on a hit that was read by itself, with nothing marked. */
async function readAs(changes: Partial<Reading>) {
  const outlines = [12, 24, 35].map(frame => ({
    frame,
    ...outlineIn(turningBall, frame),
    found: true as const,
  }))
  const host = benchHost({ marks: { outlines, readFrom: 'surface' } })
  const reading = sampleReading({
    method: 'surface',
    window: { fromFrame: 12, toFrame: 35 },
    axis,
    ...changes,
  })
  host.data.hits = host.data.hits.map(hit => ({ ...hit, reading }))
  shownOn(host, <BenchScreen hitId="hit-1" />)
  await screen.findByText(/turned back to frame|gave no figure/)
  return { host, column: within(screen.getByRole('complementary', { name: 'Reading' })) }
}
const asks = () => document.querySelector('.ask-line')?.textContent
const sheetSays = () => document.querySelector('.turned-back [role=status]')?.textContent

describe('a hit that was read by itself', () => {
  it('shows all balls turned back at once, says what to look at, and can be accepted', async () => {
    await readAs({})
    expect(sheetSays()).toMatch(/turned back to frame 12 by 2331 rpm clockwise/)
    expect(asks()).toMatch(/If all balls below look the same, accept it/)
    expect(screen.getByRole('button', { name: 'Accept' })).toHaveProperty('disabled', false)
  })

  it('says why its surface gave no figure, and what to do', async () => {
    const none = { rpm: null, sense: null, band: null, axis: null, candidates: [], flag: 'too-few-frames' }
    const reasons = ['The surface shows too little pattern.', 'Put a bold mark on the ball.']
    const { column } = await readAs({ ...none, flag: 'too-few-frames', reasons })
    for (const reason of reasons) column.getByText(reason)
    expect(column.queryByText(/second mark/)).toBeNull()
    screen.getByText('The ball was found; its surface gave no figure.')
    expect(asks()).toMatch(/^Click “logo”/)
  })

  it('puts the rates to choose from first where several fit, turns the balls by the one looked at, and settles', async () => {
    const candidates = [
      { rpm: 2343, sense: 'counter-clockwise' as const, support: 1, plausible: true },
      { rpm: 4814, sense: 'clockwise' as const, support: 0.6, plausible: true },
    ]
    const reasons = ['4814 rpm the other way fits as well.', 'The focal length was estimated.']
    const first = { rpm: 2343, sense: 'counter-clockwise' as const, band: sampleReading().band }
    const { host, column } = await readAs({ ...first, flag: 'ambiguous', reasons, candidates })
    expect(asks()).toMatch(/several rates fit. Choose one/)
    const evidence = document.querySelector('.reading-evidence')!
    expect(evidence.firstElementChild!.className).toBe('candidates')
    expect(evidence.children[1]!.textContent).toBe(reasons[1])
    const other = column.getByRole('button', { name: /^4814.*choose$/ })
    fireEvent.mouseEnter(other)
    await waitFor(() => expect(sheetSays()).toMatch(/by 4814 rpm clockwise/))
    fireEvent.click(other)
    fireEvent.mouseLeave(other.closest('ul')!)
    const reason = await screen.findByLabelText(/How do you know it was 4814 clockwise/)
    // What is being chosen stays to be seen while the reason is written.
    expect(sheetSays()).toMatch(/by 4814 rpm clockwise/)
    fireEvent.change(reason, { target: { value: 'the shot was topspin' } })
    fireEvent.click(screen.getByRole('button', { name: 'Settle on it' }))
    await waitFor(() => expect(host.marks().settled).toMatchObject({ rpm: 4814, sense: 'clockwise' }))
    expect(evidence.firstElementChild!.className).not.toBe('candidates')
  })
})
