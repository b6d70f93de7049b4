import { cleanup, fireEvent, screen, waitFor, within } from '@testing-library/react'
import { afterEach, describe, expect, it } from 'vitest'
import {
  type ImportPlan,
  type ImportRules,
  importRulesSchema,
  mappingSchema,
} from '../../../core/contract/exchange.ts'
import { WhorlError } from '../../../core/contract/problem.ts'
import type { RatingRow } from '../../../core/contract/workspace.ts'
import { HostProblem } from '../../../renderer/host/host.ts'
import { changesOf } from '../../../renderer/screens/database/changes.ts'
import { Database } from '../../../renderer/screens/database/database.tsx'
import { shownOn } from '../shown.tsx'
import { manyOf } from '../stand-in-data.ts'
import { standInHost } from '../stand-in-host.ts'
import { planOf } from '../stand-in-plan.ts'

afterEach(cleanup)
const data = manyOf({ sessions: 2, clips: 6, hits: 30 })
const planned = () =>
  standInHost(data, {
    'export.preview': ({ target }) => planOf(target, data, false),
    'export.write': ({ target }) => planOf(target, data, true),
  })
const aim = async (path: string) => {
  fireEvent.change(await screen.findByLabelText('Write to'), { target: { value: path } })
  fireEvent.click(screen.getByRole('button', { name: 'Preview' }))
}
const lines = (action: string) => planOf('x.sqlite', data, false).lines.filter(line => line.action === action)

describe('the database screen', () => {
  it('writes nothing before it has shown what, and then says what and where', async () => {
    const host = planned()
    shownOn(host, <Database />)
    await aim('/r/ratings.sqlite')
    const added = lines('add').length
    const changed = lines('change').length
    expect(await screen.findByText(new RegExp(`${added} to add, ${changed} to change`))).toBeTruthy()
    expect(host.seen.some(call => call.name === 'export.write')).toBe(false)
    fireEvent.click(screen.getByRole('button', { name: new RegExp(`Write ${added + changed}\\srows`) }))
    const done = await screen.findByRole('status')
    expect(done.textContent).toContain(`${added}\u00a0rows added`)
    expect(done.textContent).toContain('/r/ratings.sqlite')
    expect(screen.queryByRole('button', { name: /^Write/ })).toBeNull()
  })

  it('groups the lines, old value beside new, and says why a row is held back', async () => {
    shownOn(planned(), <Database />)
    await aim('/r/ratings.sqlite')
    const table = await screen.findByRole('table')
    for (const word of ['To add', 'To change', 'Held back', 'The same']) {
      expect(within(table).getByRole('rowheader', { name: new RegExp(`^${word}`) })).toBeTruthy()
    }
    const change = lines('change')[0]!
    const row = within(table)
      .getAllByRole('row')
      .find(each => each.textContent?.includes(change.paddle) && each.querySelector('del'))!
    expect([...row.querySelectorAll('del')].map(old => old.textContent)).toEqual([
      '1850\u00a0±\u00a050',
      String(change.before!.hits),
      '26 Apr 2026',
    ])
    expect(within(table).getAllByText(/wait for a choice/)).toHaveLength(lines('held-back').length)
  })

  it('offers no button when there is nothing to write', async () => {
    const host = standInHost(data, {
      'export.preview': ({ target }) => ({ ...planOf(target, data, false), lines: lines('same') }),
    })
    shownOn(host, <Database />)
    await aim('/r/ratings.sqlite')
    expect(await screen.findByText(/Nothing to write/)).toBeTruthy()
    expect(screen.queryByRole('button', { name: /^Write/ })).toBeNull()
  })

  it('takes one of the last targets with one click', async () => {
    const host = planned()
    shownOn(host, <Database />)
    fireEvent.click(await screen.findByRole('button', { name: 'may.csv' }))
    await screen.findByRole('table')
    expect(host.seen.find(call => call.name === 'export.preview')?.input).toMatchObject({
      target: '/home/bench/ratings/may.csv',
    })
  })

  it('builds a target from a folder and a name where the shell has no dialog', async () => {
    const host = planned()
    shownOn(host, <Database />)
    fireEvent.click(await screen.findByRole('button', { name: 'Choose…' }))
    fireEvent.change(await screen.findByLabelText('Name'), { target: { value: 'june.csv' } })
    fireEvent.click(screen.getByRole('button', { name: 'Use this name' }))
    await screen.findByRole('table')
    expect(host.seen.find(call => call.name === 'export.preview')?.input).toMatchObject({
      target: '/home/bench/clips/june.csv',
    })
  })

  it('says in place why a target cannot be used, and why a write failed', async () => {
    let locked = false
    const host = standInHost(data, {
      'export.preview': ({ target }) => {
        if (target.endsWith('.txt'))
          throw new HostProblem(new WhorlError('target-unknown', { path: target }).toProblem())
        return planOf(target, data, false)
      },
      'export.write': ({ target }) => {
        locked = true
        throw new HostProblem(new WhorlError('target-locked', { path: target }).toProblem())
      },
    })
    shownOn(host, <Database />)
    await aim('/r/notes.txt')
    expect((await screen.findByRole('alert')).textContent).toContain('.sqlite, .db, .xlsx, .csv or .json')
    await aim('/r/ratings.sqlite')
    fireEvent.click(await screen.findByRole('button', { name: /^Write/ }))
    expect((await screen.findByRole('alert')).textContent).toContain('nothing was written')
    expect(locked).toBe(true)
    expect(screen.getByRole('button', { name: /^Write/ })).toBeTruthy()
  })

  it('looks again when a hit changed meanwhile', async () => {
    const host = planned()
    shownOn(host, <Database />)
    await aim('/r/ratings.sqlite')
    await screen.findByRole('table')
    host.say({ kind: 'changed', what: 'hits', id: 'hit-1' })
    await waitFor(() => expect(host.seen.filter(call => call.name === 'export.preview')).toHaveLength(2))
  })
})

describe('what differs between two rows', () => {
  const row = lines('same')[0]!.after as RatingRow
  it('is nothing for the same row', () => expect(changesOf(row, { ...row })).toEqual([]))
  it('is the evidence when every figure reads the same', () => {
    expect(changesOf(row, { ...row, meanRpm: row.meanRpm + 0.01, evidence: 'f'.repeat(64) })).toEqual([
      { word: 'evidence', before: 'old marks', after: 'new marks' },
    ])
  })
  it('names flag, limit and reason in words', () => {
    const after: RatingRow = { ...row, flag: 'near-ceiling', limit: 'smear', settledReason: 'Second camera' }
    expect(changesOf(row, after).map(change => `${change.word}: ${change.before} → ${change.after}`)).toEqual(
      [
        'flag: clear → near ceiling',
        'limit: none → smear',
        'chosen because: nothing to choose → Second camera',
      ],
    )
  })
})

describe('a table of the person’s own', () => {
  const columns = { paddle: 'Paddle', mean_rpm: 'Spin' }
  const mapping = { table: 'Sheet', columns, names: [] }
  const host = () =>
    standInHost(data, {
      'export.look': ({ target }) => ({
        place: target.replace(/\/\/.*@/, '//'),
        kind: 'xlsx',
        tables: [{ table: 'Sheet', columns: ['Paddle', 'Spin', 'Price'], guess: mapping }],
        mapping: null,
      }),
      'export.preview': ({ target, mapping: asked }) => ({
        ...planOf(target, data, false),
        mapping: asked ? mappingSchema.parse(asked) : mapping,
        lines: [{ ...lines('held-back')[0]!, paddle: 'Heron 14', almost: ['heron-14'] }],
      }),
    })

  it('has its columns changed, and each change previewed', async () => {
    const own = host()
    shownOn(own, <Database />)
    await aim('/r/mine.xlsx')
    fireEvent.change(await screen.findByLabelText('Hits'), { target: { value: 'Price' } })
    await waitFor(() =>
      expect(own.seen.filter(call => call.name === 'export.preview').at(-1)?.input).toMatchObject({
        mapping: { columns: { ...columns, hits: 'Price' } },
      }),
    )
  })

  it('asks about a name that almost matches, and keeps the answer', async () => {
    const own = host()
    shownOn(own, <Database />)
    await aim('/r/mine.xlsx')
    fireEvent.click(await screen.findByRole('button', { name: 'It is “heron-14”' }))
    await waitFor(() =>
      expect(own.seen.filter(call => call.name === 'export.preview').at(-1)?.input).toMatchObject({
        mapping: { names: [{ paddle: 'Heron 14', as: 'heron-14' }] },
      }),
    )
  })

  it('on a server is asked for once by its whole string, then by its place alone', async () => {
    const own = host()
    shownOn(own, <Database />)
    await aim('postgres://me:secret@h/db')
    await screen.findByRole('table')
    const named = own.seen.filter(call => JSON.stringify(call.input).includes('secret'))
    expect(named.map(call => call.name)).toEqual(['export.look'])
    expect((screen.getByLabelText('Write to') as HTMLInputElement).value).toBe('postgres://h/db')
  })
})

describe('tables in, and the history', () => {
  const plan = (rules: ImportRules, written = false): ImportPlan => ({
    place: '/r/mine.csv',
    kind: 'csv',
    tables: [{ table: '', columns: ['Name', 'Weight', 'Colour'], guess: null }],
    table: '',
    paddleColumn: rules.paddleColumn ?? 'Name',
    setUpColumn: null,
    columns: [{ column: 'Weight', name: 'Weight', unit: 'g', kind: 'number' }],
    lines: [
      {
        row: 2,
        paddle: 'Heron',
        setUp: null,
        action: 'add',
        reason: '',
        almost: [],
        changes: [{ column: 'Weight', before: null, after: 221.5 }],
      },
    ],
    unclear: [{ row: 3, column: 'Weight', text: 'heavy', what: 'text in a column of numbers' }],
    notes: [],
    written,
  })

  it('show what comes and what was not understood before anything is brought in', async () => {
    const host = standInHost(data, {
      'import.preview': ({ rules }) => plan(importRulesSchema.parse(rules)),
      'import.write': ({ rules }) => plan(importRulesSchema.parse(rules), true),
    })
    shownOn(host, <Database />)
    fireEvent.click(screen.getByRole('button', { name: 'Tables in' }))
    fireEvent.change(await screen.findByLabelText('Read from'), { target: { value: '/r/mine.csv' } })
    fireEvent.click(screen.getByRole('button', { name: 'Preview' }))
    expect(await screen.findByText('heavy')).toBeTruthy()
    expect(screen.getByText('221.5')).toBeTruthy()
    fireEvent.change(screen.getByLabelText('Paddle'), { target: { value: 'Colour' } })
    await waitFor(() => expect(host.seen.at(-1)?.input).toMatchObject({ rules: { paddleColumn: 'Colour' } }))
    expect(host.seen.some(call => call.name === 'import.write')).toBe(false)
    fireEvent.click(await screen.findByRole('button', { name: /^Bring in/ }))
    expect((await screen.findByRole('status')).textContent).toContain('Brought in')
  })

  it('take the last export back', async () => {
    const transfer = {
      id: 't',
      kind: 'export' as const,
      place: '/r/a.csv',
      doneAt: '2026-05-31T09:00:00Z',
      said: '2 added, 0 changed',
      undoneAt: null,
    }
    const host = standInHost(data, {
      'transfers.list': () => [
        { ...transfer, canUndo: true },
        { ...transfer, id: 'u', canUndo: false },
      ],
    })
    shownOn(host, <Database />)
    fireEvent.click(screen.getByRole('button', { name: 'History' }))
    fireEvent.click(await screen.findByRole('button', { name: 'Take back' }))
    await waitFor(() =>
      expect(host.seen.find(call => call.name === 'export.undo')?.input).toEqual({ target: '/r/a.csv' }),
    )
  })
})
