import { cleanup, fireEvent, screen, waitFor, within } from '@testing-library/react'
import { afterEach, beforeEach, describe, expect, it } from 'vitest'
import { stacked } from '../../../renderer/components/stacked.ts'
import { Compare } from '../../../renderer/screens/compare/compare.tsx'
import { differenceScaleOf, percentOnDifference } from '../../../renderer/screens/compare/difference-scale.ts'
import { PaddleScreen } from '../../../renderer/screens/paddle/paddle-screen.tsx'
import { Paddles } from '../../../renderer/screens/paddles/paddles.tsx'
import { choicesOf, rowsOf, wholeView } from '../../../renderer/screens/paddles/table-view.ts'
import { useCompared } from '../../../renderer/state/compared.ts'
import { runKey } from '../../../renderer/state/keys.ts'
import { shownOn } from '../shown.tsx'
import { manyOf } from '../stand-in-data.ts'
import { standInHost } from '../stand-in-host.ts'
import { ratingsOf } from '../stand-in-ratings.ts'

/** Paddles with hits, and what was measured of them elsewhere. */
function many() {
  const data = manyOf({ sessions: 4, clips: 20, hits: 200 })
  const metric = { setUpId: null, source: 'mine.csv', importedAt: '2026-06-01T00:00:00.000Z' }
  data.metrics = data.paddles.flatMap(({ id: paddleId }, i) => [
    { ...metric, paddleId, name: 'shape', unit: '', value: i % 2 === 0 ? 'wide' : 'long' },
    { ...metric, paddleId, name: 'swing weight', unit: 'kg·cm²', value: 105.5 + i },
  ])
  return data
}

beforeEach(() => {
  document.addEventListener('keydown', runKey)
  // The virtual list measures its box; happy-dom has no layout.
  Object.defineProperty(HTMLElement.prototype, 'clientHeight', { configurable: true, value: 720 })
  Object.defineProperty(HTMLElement.prototype, 'clientWidth', { configurable: true, value: 1280 })
  useCompared.setState({ setUpIds: [] })
})
afterEach(() => {
  document.removeEventListener('keydown', runKey)
  cleanup()
  location.hash = ''
})

describe('a view of the paddles', () => {
  const { table } = ratingsOf(many())
  it('sorts by any column, rows without a value last either way', () => {
    const swing = table.columns.findIndex(({ name }) => name === 'swing weight')
    for (const down of [true, false]) {
      const values = rowsOf(table.rows, { ...wholeView, sort: { column: swing, down } }).map(
        row => row.metrics[swing]!.value as number,
      )
      expect(values).toEqual(values.toSorted((a, b) => (down ? b - a : a - b)))
      const ranks = rowsOf(table.rows, { ...wholeView, sort: { column: 'rank', down } }).map(row => row.rank)
      const placed = ranks.filter(rank => rank !== null)
      expect(placed).toEqual(placed.toSorted((a, b) => (down ? b - a : a - b)))
      expect(ranks.slice(placed.length).every(rank => rank === null)).toBe(true)
    }
  })
  it('keeps a tier, a flag, a kind of paddle and every word of a search', () => {
    const shape = table.columns.findIndex(({ name }) => name === 'shape')
    const kept = rowsOf(table.rows, { ...wholeView, tier: 'top quarter', values: { [shape]: 'long' } })
    expect(kept).toEqual(
      table.rows.filter(row => row.tier === 'top quarter' && row.metrics[shape]?.value === 'long'),
    )
    const flagged = rowsOf(table.rows, { ...wholeView, flag: 'near-ceiling', search: 'WEIGHTED' })
    expect(flagged).toEqual(
      table.rows.filter(row => row.flag === 'near-ceiling' && row.setUp.includes('weighted')),
    )
  })
  it('offers kinds of few words or whole figures to choose, never a measured figure', () => {
    expect(choicesOf(table).map(({ name, values }) => [name, values])).toEqual([['shape', ['long', 'wide']]])
  })
})

describe('the table of paddles', () => {
  it('stands by place, with rank bands when they come, and leads to the paddle', async () => {
    const host = standInHost(many())
    shownOn(host, <Paddles />)
    const rows = await screen.findAllByRole('row')
    const { table } = ratingsOf(host.data)
    const first = table.rows[0]!
    expect(within(rows[1]!).getByRole('link', { name: first.paddle })).toHaveProperty(
      'hash',
      `#/paddle/${first.paddleId}`,
    )
    await waitFor(() => expect(host.seen.some(({ name }) => name === 'ratings.ranks')).toBe(true))
  })
  it('chooses by the box or the key, and compares what is chosen', async () => {
    const host = standInHost(many())
    shownOn(host, <Paddles />)
    const boxes = await screen.findAllByRole('checkbox', { name: /^Compare / })
    fireEvent.click(boxes[0]!)
    fireEvent.keyDown(document.body, { key: 'ArrowDown' })
    fireEvent.keyDown(document.body, { key: 'ArrowDown' })
    fireEvent.keyDown(document.body, { key: 'x' })
    // The box is a press on its row too: two steps on is the third.
    const [one, , two] = ratingsOf(host.data).table.rows
    expect(await screen.findByRole('link', { name: 'Compare' })).toHaveProperty(
      'hash',
      `#/compare/${encodeURIComponent(`${one!.setUpId},${two!.setUpId}`)}`,
    )
  })
  it('keeps another percentile and a person’s own tiers, and shows them', async () => {
    const host = standInHost(many())
    shownOn(host, <Paddles />)
    fireEvent.click(await screen.findByRole('button', { name: 'Percentiles, tiers, reference' }))
    fireEvent.click(screen.getByRole('radio', { name: /at or below/ }))
    fireEvent.click(screen.getByRole('radio', { name: 'a rate' }))
    fireEvent.change(screen.getByLabelText('Name of tier 1'), { target: { value: 'quick' } })
    fireEvent.change(screen.getByLabelText('Where tier 1 begins, rpm'), { target: { value: '' } })
    expect(screen.getByRole('button', { name: 'Keep' })).toHaveProperty('disabled', true)
    fireEvent.change(screen.getByLabelText('Where tier 1 begins, rpm'), { target: { value: '1950' } })
    fireEvent.click(screen.getByRole('button', { name: 'Keep' }))
    expect(await screen.findByText(/the share at or below, itself included/)).toBeDefined()
    expect(host.data.rules).toMatchObject({
      percentileDefinition: 'inclusive',
      tiers: { by: 'rpm', tiers: expect.arrayContaining([{ name: 'quick', fromRpm: 1950 }]) },
    })
    await waitFor(() => expect(screen.queryAllByText('quick').length).toBeGreaterThan(0))
  })
})

describe('one paddle', () => {
  it('leaves a hit out with a reason, says why, and brings it back', async () => {
    const host = standInHost(many())
    const paddle = host.data.paddles.find(({ setUps }) =>
      host.data.hits.some(
        hit => setUps.some(({ id }) => id === hit.setUpId) && hit.verdict.state === 'accepted' && !hit.stale,
      ),
    )!
    shownOn(host, <PaddleScreen paddleId={paddle.id} />)
    expect(await screen.findByRole('heading', { name: paddle.name })).toBeDefined()
    fireEvent.click(screen.getAllByRole('button', { name: 'Leave out…' })[0]!)
    const why = screen.getByLabelText('Why it is left out')
    fireEvent.change(why, { target: { value: 'off the edge' } })
    fireEvent.submit(why.closest('form')!)
    const said = await screen.findByText(/off the edge/)
    expect(host.data.hits.filter(hit => hit.verdict.reason === 'off the edge')).toHaveLength(1)
    fireEvent.click(within(said.closest('td')!).getByRole('button', { name: 'Bring back' }))
    await waitFor(() => expect(screen.queryByText(/off the edge/)).toBeNull())
  })
})

describe('a comparison', () => {
  it('has every pair, and says which spins more only where the hits tell', async () => {
    const host = standInHost(many())
    const rated = ratingsOf(host.data).table.rows.filter(row => row.hits > 2)
    const setUpIds = [rated[0]!, rated.at(-1)!, rated[1]!].map(row => row.setUpId)
    shownOn(host, <Compare setUpIds={setUpIds} />)
    const pairs = within(await screen.findByRole('region', { name: 'Differences' }))
    expect(pairs.getAllByRole('listitem')).toHaveLength(3)
    const verdicts = pairs.getAllByText(/spins more$|may spin alike/)
    expect(verdicts).toHaveLength(3)
    expect(pairs.getByText(/corrected for the 3 pairs looked at together, after Holm/)).toBeDefined()
  })
  it('of nothing asks for two', async () => {
    shownOn(standInHost(many()), <Compare setUpIds={[]} />)
    expect(await screen.findByText(/Choose two set-ups or more/)).toBeDefined()
  })
})

describe('pictures', () => {
  it('stack dots that would meet, and no others', () => {
    expect(stacked([100, 104, 109, 110, 300], 10)).toEqual([
      { rpm: 100, level: 0 },
      { rpm: 100, level: 1 },
      { rpm: 100, level: 2 },
      { rpm: 110, level: 0 },
      { rpm: 300, level: 0 },
    ])
  })
  it('put zero in the middle of differences, and no band beyond the ends', () => {
    const band = { lowRpm: -120, highRpm: 320, level: 0.95 }
    const scale = differenceScaleOf([
      {
        a: 'a',
        b: 'b',
        differenceRpm: 100,
        band,
        probabilityAOverB: 0.9,
        adjustedP: 0.2,
        sharesCamera: true,
      },
    ])
    expect(scale.reachRpm).toBe(500)
    expect(percentOnDifference(scale, 0)).toBe(50)
    expect(percentOnDifference(scale, band.highRpm)).toBeLessThan(100)
  })
})
