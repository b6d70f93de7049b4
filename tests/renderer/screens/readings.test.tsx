import { cleanup, fireEvent, screen, waitFor, within } from '@testing-library/react'
import { afterEach, beforeEach, describe, expect, it } from 'vitest'
import { WhorlError } from '../../../core/contract/problem.ts'
import { HostProblem } from '../../../renderer/host/host.ts'
import { Readings } from '../../../renderer/screens/readings/readings.tsx'
import { flagCounts, rowsOf, wholeView } from '../../../renderer/screens/readings/table-view.ts'
import { runKey } from '../../../renderer/state/keys.ts'
import { shownOn } from '../shown.tsx'
import { manyOf } from '../stand-in-data.ts'
import { standInHost } from '../stand-in-host.ts'

const many = () => manyOf({ sessions: 4, clips: 20, hits: 200 })

describe('a view of the table', () => {
  const { hits } = many()
  it('sorts by rate, the fastest first, and leaves hits without a figure to the end either way', () => {
    for (const down of [true, false]) {
      const rates = rowsOf(hits, { ...wholeView, sort: { column: 'rpm', down } }).map(
        row => row.reading?.rpm ?? null,
      )
      const known = rates.filter(rate => rate !== null)
      expect(known).toEqual([...known].sort((a, b) => (down ? b - a : a - b)))
      expect(rates.indexOf(null)).toBe(known.length)
      expect(known.length).toBeLessThan(hits.length)
    }
  })
  it('sorts names as people read figures in them', () => {
    const named = ['Umbra 9', 'Umbra 13', 'umbra 10'].map((paddle, index) => ({ ...hits[index]!, paddle }))
    const rows = rowsOf(named, { ...wholeView, sort: { column: 'paddle', down: false } })
    expect(rows.map(row => row.paddle)).toEqual(['Umbra 9', 'umbra 10', 'Umbra 13'])
  })
  it('shows the flags that are chosen, and all when none is', () => {
    const counts = flagCounts(hits)
    const flagged = rowsOf(hits, { ...wholeView, flags: ['ambiguous', 'too-few-frames'] })
    expect(flagged).toHaveLength(counts.ambiguous + counts['too-few-frames'])
    expect(rowsOf(hits, wholeView)).toHaveLength(hits.length)
  })
  it('finds hits by every word of a search, in any order and case', () => {
    const found = rowsOf(hits, { ...wholeView, search: '  WEIGHTED fennick ' })
    expect(found.length).toBeGreaterThan(0)
    expect(found.every(row => row.paddle === 'Fennick 14' && row.setUp?.startsWith('weighted'))).toBe(true)
  })
  it('keeps one paddle, one verdict', () => {
    const rows = rowsOf(hits, { ...wholeView, paddle: 'Tarn 16', verdict: 'accepted' })
    expect(rows).toEqual(hits.filter(hit => hit.paddle === 'Tarn 16' && hit.verdict.state === 'accepted'))
  })
})

describe('the readings screen', () => {
  beforeEach(() => {
    document.addEventListener('keydown', runKey)
    // The virtual list measures its box; happy-dom has no layout.
    Object.defineProperty(HTMLElement.prototype, 'clientHeight', { configurable: true, value: 720 })
    Object.defineProperty(HTMLElement.prototype, 'clientWidth', { configurable: true, value: 1280 })
  })
  afterEach(() => {
    document.removeEventListener('keydown', runKey)
    cleanup()
    location.hash = ''
  })
  const key = (name: string) => fireEvent.keyDown(document.activeElement ?? document.body, { key: name })
  const selected = () => document.querySelector('[role=row][aria-selected=true]')?.id
  const details = () => screen.getByRole('complementary', { name: 'The hit' })

  it('says what will stand there while there is nothing', async () => {
    shownOn(standInHost(manyOf({ sessions: 0, clips: 0, hits: 0 })), <Readings hitId={null} />)
    expect(await screen.findByText(/Every hit will stand here/)).toBeTruthy()
  })

  it('draws only the rows in sight of very many', async () => {
    shownOn(standInHost(manyOf({ sessions: 4, clips: 20, hits: 5000 })), <Readings hitId={null} />)
    const grid = await screen.findByRole('grid', {}, { timeout: 10_000 })
    expect(grid.getAttribute('aria-rowcount')).toBe('5001')
    const drawn = grid.querySelectorAll('.row-grid-row').length
    expect(drawn).toBeGreaterThan(19)
    expect(drawn).toBeLessThan(60)
  })

  it('walks by arrow keys and opens what it walks over', async () => {
    const host = standInHost(many())
    shownOn(host, <Readings hitId={null} />)
    await screen.findByRole('grid')
    key('ArrowDown')
    const first = selected()
    expect(first).toBeTruthy()
    key('ArrowDown')
    expect(selected()).not.toBe(first)
    expect(details()).toBeTruthy()
    key('ArrowUp')
    expect(selected()).toBe(first)
    key('Escape')
    expect(screen.queryByRole('complementary')).toBeNull()
  })

  it('leads from an open hit to the bench with Enter, and to the search with a slash', async () => {
    shownOn(standInHost(many()), <Readings hitId="hit-3" />)
    await screen.findByRole('complementary')
    key('/')
    expect(document.activeElement).toBe(screen.getByRole('searchbox'))
    key('Escape')
    key('Enter')
    await waitFor(() => expect(location.hash).toBe('#/bench/hit-3'))
  })

  it('holds a hit back only with a reason, and shows it in the row without reading the list again', async () => {
    const host = standInHost(many())
    const open = host.data.hits.find(hit => hit.verdict.state === 'open' && hit.reading?.flag === 'clear')!
    shownOn(host, <Readings hitId={open.hitId} />)
    await screen.findByRole('complementary')
    fireEvent.click(within(details()).getByText('Hold back…'))
    const keep = within(details()).getByRole<HTMLButtonElement>('button', { name: 'Hold back' })
    expect(keep.disabled).toBe(true)
    fireEvent.change(within(details()).getByLabelText('Why it is held back'), {
      target: { value: ' Clipped the net ' },
    })
    fireEvent.click(keep)
    expect(await within(details()).findByText('Held back: Clipped the net')).toBeTruthy()
    expect(host.seen.filter(call => call.name === 'hits.page')).toHaveLength(1)
  })

  it('shows the host’s own words when a verdict is refused', async () => {
    const host = standInHost(many(), {
      'hits.edit': () => {
        const facts = { what: 'More than one rate explains this hit.', hint: 'Choose one of the candidates.' }
        throw new HostProblem(new WhorlError('edit-refused', facts).toProblem())
      },
    })
    const open = host.data.hits.find(hit => hit.verdict.state === 'open' && hit.reading?.rpm != null)!
    shownOn(host, <Readings hitId={open.hitId} />)
    await screen.findByRole('complementary')
    fireEvent.click(within(details()).getByText('Accept'))
    expect((await within(details()).findByRole('alert')).textContent).toContain(
      'Choose one of the candidates.',
    )
  })

  it('cannot accept a hit without a figure', async () => {
    const host = standInHost(many())
    const none = host.data.hits.find(hit => hit.reading?.rpm === null && hit.verdict.state !== 'accepted')!
    shownOn(host, <Readings hitId={none.hitId} />)
    await screen.findByRole('complementary')
    expect(within(details()).getByRole<HTMLButtonElement>('button', { name: 'Accept' }).disabled).toBe(true)
    expect(await within(details()).findByText(/a reading needs 3/)).toBeTruthy()
  })

  it('takes away a hit that another window removed', async () => {
    const host = standInHost(many())
    shownOn(host, <Readings hitId="hit-5" />)
    await screen.findByRole('complementary')
    host.data.hits = host.data.hits.filter(hit => hit.hitId !== 'hit-5')
    host.say({ kind: 'changed', what: 'hits', id: 'hit-5' })
    await screen.findByText(/^199 hits$/)
    expect(screen.queryByRole('complementary')).toBeNull()
  })
})
