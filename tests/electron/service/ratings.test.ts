import { describe, expect, it } from 'vitest'
import { usualRules } from '../../../core/contract/rating-rules.ts'
import type { Reading } from '../../../core/contract/reading.ts'
import { ratedSetUp } from '../../../core/ratings/rated-set-up.ts'
import { methodVersion } from '../../../core/spin/method-version.ts'
import { rated } from '../../../electron/service/rating-figures.ts'
import { fillWorkspace, giveHits } from '../export/filled-workspace.ts'
import { sampleReading } from '../store/sample-reading.ts'
import { openService } from './open-service.ts'

const given = (setUpId: string, rpms: readonly number[], reading: Partial<Reading> = {}) =>
  rpms.map(rpm => ({ setUpId, rpm, reading, methodVersion }))

describe('the table of paddles', () => {
  it('has every paddle with its place, then those only measured elsewhere, with all values', async () => {
    const { workspace, call } = openService()
    fillWorkspace(workspace)
    const values = [{ name: 'swing weight', unit: 'kg·cm²', value: 110 }]
    workspace.importMetrics(
      [
        { paddle: 'Kite', setUp: null, values },
        { paddle: 'Heron 14', setUp: null, values: [{ ...values[0]!, value: 120 }] },
      ],
      'mine.csv',
    )
    const { rows, columns } = await call('ratings.table', {})
    expect(rows.map(row => [row.paddle, row.rank, row.hits, row.heldBack])).toEqual([
      ['Heron 14', 1, 3, 0],
      ['Avocet 16', 2, 2, 1],
      ['Merlin X', null, 0, 1],
      ['Kite', null, 0, 0],
    ])
    expect(rows[0]!.dots).toEqual([2300, 2310, 2341])
    expect(rows[1]!.leftOut).toEqual([9000])
    expect(columns).toEqual([{ name: 'swing weight', unit: 'kg·cm²' }])
    expect(rows.map(row => row.metrics[0])).toEqual([
      { value: 120, percentile: 100 },
      null,
      null,
      { value: 110, percentile: 0 },
    ])
  })
  it('is made in pieces: says how far it is, answers other calls between, and has the figures of its hits', async () => {
    const { workspace, call } = openService()
    const setUpIds = ['Heron 14', 'Avocet 16', 'Merlin X'].map(
      name => workspace.createPaddle({ name, notes: '' }).setUps[0]!.id,
    )
    // 260 hits of a set-up, of which a piece holds no second one: 15 whole rounds of 17 rates and 5 of the next.
    const rpms = Array.from({ length: 260 }, (_, i) => 2000 + 13 * (i % 17))
    const [first] = giveHits(workspace, given(setUpIds[0]!, rpms.slice(0, 1)))
    const { row, marks } = workspace.hit(first!)
    const more = setUpIds.flatMap((setUpId, i) =>
      rpms.slice(i === 0 ? 1 : 0).map(rpm => ({
        clipId: row.clipId,
        setUpId,
        marks,
        reading: sampleReading({ rpm: rpm + 50 * i }),
      })),
    )
    workspace.enterHits(more, methodVersion)
    const order: string[] = []
    const ask = (who: string) =>
      call('ratings.table', {}, { progress: ({ done, total }) => order.push(`${who}: ${done} of ${total}`) })
    const table = ask('first').then(answer => {
      order.push('table')
      return answer
    })
    const [{ rows }, again] = await Promise.all([
      table,
      ask('second'),
      call('sessions.list', {}).then(() => order.push('sessions')),
    ])
    expect(again.rows).toBe(rows)
    const told = ['first: 2 of 3', 'second: 2 of 3', 'first: 3 of 3', 'second: 3 of 3', 'table']
    expect(order).toEqual(['first: 1 of 3', 'sessions', ...told])
    for (const [i, setUpId] of setUpIds.entries()) {
      const { figure } = ratedSetUp(workspace.evidence({ setUpId }).map(rated))
      expect(rows.find(one => one.setUpId === setUpId)?.meanRpm).toBe(figure!.meanRpm)
      // Alike sure hits count alike: the plain mean, by hand.
      expect(figure!.meanRpm).toBeCloseTo(2000 + 50 * i + (15 * 13 * 136 + 13 * 10) / 260, 6)
    }
  })
  it('is the same until something changes, and then moves the paddle', async () => {
    const { workspace, call } = openService()
    const { hitIds } = fillWorkspace(workspace)
    const before = await call('ratings.table', {})
    expect(await call('ratings.table', {})).toBe(before)
    const verdict = { state: 'held-back' as const, reason: 'off the edge' }
    await call('hits.edit', { hitId: hitIds[0]!, edit: { kind: 'decide', verdict } })
    const { rows } = await call('ratings.table', {})
    expect(rows[0]).toMatchObject({
      paddle: 'Heron 14',
      hits: 2,
      heldBack: 1,
      dots: [2310, 2341],
      leftOut: [2300],
    })
    await call('hits.edit', {
      hitId: hitIds[0]!,
      edit: { kind: 'decide', verdict: { state: 'accepted', reason: '' } },
    })
    expect((await call('ratings.table', {})).rows).toEqual(before.rows)
  })
  it('places by the rules that a person set, and says when they change', async () => {
    const { workspace, call, events } = openService()
    fillWorkspace(workspace)
    const tiers = [
      { name: 'quick', fromRpm: 2200 },
      { name: 'slow', fromRpm: 0 },
    ]
    const rules = {
      ...usualRules,
      percentileDefinition: 'inclusive' as const,
      tiers: { by: 'rpm' as const, tiers },
    }
    await call('ratings.setRules', { rules })
    expect(events.at(-1)).toEqual({ kind: 'changed', what: 'ratings', id: null })
    const table = await call('ratings.table', {})
    expect(table.rules).toEqual(rules)
    expect(table.rows.map(row => [row.tier, row.percentile])).toEqual([
      ['quick', 100],
      ['slow', 50],
      [null, null],
    ])
  })
  it('has rank bands when they are asked for, the same again', async () => {
    const { workspace, call } = openService()
    const { heron, avocet } = fillWorkspace(workspace)
    const ranks = await call('ratings.ranks', {})
    expect(ranks.map(rank => rank.setUpId).sort()).toEqual([heron, avocet].sort())
    for (const { low, high } of ranks) expect([low >= 1, high <= 2, low <= high]).toEqual([true, true, true])
    expect(await call('ratings.ranks', {})).toBe(ranks)
  })
})

describe('one paddle', () => {
  it('has its set-ups, sessions and hits, each hit in the mean or out of it with the reason', async () => {
    const { workspace, call } = openService()
    const { id: paddleId, setUps } = workspace.createPaddle({ name: 'Heron', notes: 'raw face' })
    const stock = setUps[0]!.id
    workspace.addSetUp(paddleId, { name: 'weighted', notes: '' })
    const even = [2300, 2310, 2320, 2305, 2315]
    giveHits(workspace, given(stock, [...even, 1500]), '2026-05-01')
    const [byHand] = giveHits(
      workspace,
      [{ setUpId: stock, rpm: 2290, verdict: 'held-back', verdictReason: 'off the edge', methodVersion }],
      '2026-05-02',
    )
    const page = await call('ratings.paddle', { paddleId })
    expect([page.name, page.notes, page.drift]).toEqual(['Heron', 'raw face', null])
    const [first, second] = page.setUps
    expect([second!.name, second!.row, second!.hits]).toEqual(['weighted', null, []])
    expect(first!.hits.find(hit => hit.hitId === byHand)).toMatchObject({
      leftOut: { by: 'hand', reason: 'Held back by hand: off the edge' },
    })
    expect(first!.hits.filter(hit => hit.mishit !== null).map(hit => hit.rpm)).toEqual([1500])
    expect(first!.sessions.map(({ day, hits }) => [day, hits])).toEqual([
      ['2026-05-01', 6],
      ['2026-05-02', 0],
    ])
  })
  it('leaves a mishit out by the rule’s words, and knows then that a rule did it', async () => {
    const { workspace, call } = openService()
    const { id: paddleId, setUps } = workspace.createPaddle({ name: 'Heron', notes: '' })
    giveHits(workspace, given(setUps[0]!.id, [2300, 2310, 2320, 2305, 2315, 1500]))
    const { hitId, mishit } = (await call('ratings.paddle', { paddleId })).setUps[0]!.hits.find(
      hit => hit.mishit,
    )!
    const verdict = { state: 'held-back' as const, reason: mishit! }
    await call('hits.edit', { hitId, edit: { kind: 'decide', verdict } })
    const { hits, row } = (await call('ratings.paddle', { paddleId })).setUps[0]!
    expect(hits.find(hit => hit.hitId === hitId)!.leftOut).toEqual({ by: 'rule', reason: mishit })
    expect([row!.hits, row!.mishits]).toEqual([5, 0])
  })
  /** By hand: 2500 rpm over 20 m/s is 125 rpm per m/s; r·ω/v = 0.037 · 2500 · 2π/60 / 20 = 0.4843. */
  it('has spin over speed and the spin parameter where the speed was measured', async () => {
    const { workspace, call } = openService()
    const { id: paddleId, setUps } = workspace.createPaddle({ name: 'Heron', notes: '' })
    const flight = { speedMetresPerSecond: 20, launchAngleDeg: null, standardUncertaintySpeed: 0.2 }
    giveHits(workspace, given(setUps[0]!.id, [2500], { flight }))
    giveHits(workspace, given(setUps[0]!.id, [2500]), '2026-06-01')
    const { hits } = (await call('ratings.paddle', { paddleId })).setUps[0]!
    expect(hits[0]!.perSpeed!.value).toBeCloseTo(125, 9)
    expect(hits[0]!.spinParameter!.value).toBeCloseTo(0.4843, 4)
    expect(hits[1]!.perSpeed).toBeNull()
  })
  it('shows the drift of its days by the reference paddle, and its mean without it beside', async () => {
    const { workspace, call } = openService()
    const setUpOf = (name: string) => workspace.createPaddle({ name, notes: '' })
    const [heron, plumb] = [setUpOf('Heron'), setUpOf('Plumb')]
    const [stock, reference] = [heron.setUps[0]!.id, plumb.setUps[0]!.id]
    const about = (rpm: number) => [-10, 0, 10].map(off => rpm + off)
    giveHits(workspace, [...given(reference, about(1900)), ...given(stock, about(2100))], '2026-05-01')
    giveHits(workspace, given(reference, about(2100)), '2026-05-02')
    await call('ratings.setRules', { rules: { ...usualRules, referenceSetUpId: reference } })
    const { drift, setUps } = await call('ratings.paddle', { paddleId: heron.id })
    expect(drift).toMatchObject({ reference: 'Plumb, stock', isSeen: true })
    expect(drift!.sessions.map(one => one.factor)).toEqual([expect.closeTo(0.95, 2), expect.closeTo(1.05, 2)])
    expect(setUps[0]!.row!.meanRpm).toBeCloseTo(2100, 0)
    expect(setUps[0]!.corrected!.meanRpm).toBeCloseTo(2100 / 0.95, -1)
  })
  it('that is not there is an error with its id', async () => {
    const { call } = openService()
    await expect(call('ratings.paddle', { paddleId: 'none' })).rejects.toMatchObject({
      code: 'not-in-workspace',
    })
  })
})

describe('a comparison', () => {
  it('has every pair once, in the order asked for, and says what one camera cancels', async () => {
    const { workspace, call } = openService()
    const ids = ['A', 'B', 'C'].map(name => workspace.createPaddle({ name, notes: '' }).setUps[0]!.id)
    ids.forEach((id, i) => {
      giveHits(workspace, given(id, [2300 - 100 * i, 2310 - 100 * i, 2320 - 100 * i]))
    })
    const { rows, pairs } = await call('ratings.compare', { setUpIds: ids })
    expect(rows.map(row => row.paddle)).toEqual(['A', 'B', 'C'])
    expect(pairs.map(({ a, b }) => [ids.indexOf(a), ids.indexOf(b)])).toEqual([
      [0, 1],
      [0, 2],
      [1, 2],
    ])
    expect(pairs[1]!.differenceRpm).toBeCloseTo(200, 6)
    expect(pairs.every(pair => pair.sharesCamera)).toBe(true)
  })
  it('has no pair with a set-up that has no hit in the mean', async () => {
    const { workspace, call } = openService()
    const { heron, merlin } = fillWorkspace(workspace)
    const { rows, pairs } = await call('ratings.compare', { setUpIds: [heron, merlin] })
    expect([rows.length, pairs]).toEqual([2, []])
  })
  it('reads stale hits again before it compares', async () => {
    const { workspace, call } = openService()
    const { heron, avocet, hitIds } = fillWorkspace(workspace)
    await call('ratings.compare', { setUpIds: [heron, avocet] })
    workspace.saveReading(hitIds[0]!, sampleReading({ rpm: 5000 }), methodVersion)
    const { rows } = await call('ratings.compare', { setUpIds: [heron, avocet] })
    expect(rows[0]!.dots).toContain(5000)
  })
})
