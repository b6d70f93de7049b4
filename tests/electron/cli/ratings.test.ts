import { mkdtempSync, rmSync } from 'node:fs'
import { tmpdir } from 'node:os'
import { join } from 'node:path'
import { afterAll, beforeAll, describe, expect, it } from 'vitest'
import { problemSchema } from '../../../core/contract/problem.ts'
import { compareDocumentSchema, paddlesDocumentSchema } from '../../../core/contract/ratings.ts'
import { ordinal } from '../../../electron/cli/figures.ts'
import { openWorkspace } from '../../../electron/store/open-workspace.ts'
import { fillWorkspace, giveHits } from '../export/filled-workspace.ts'
import { type Said, said } from './stand-in-world.ts'

const folder = mkdtempSync(join(tmpdir(), 'whorl-ratings-'))
afterAll(() => rmSync(folder, { recursive: true }))

const linesOf = ({ out }: Said): unknown[] =>
  out
    .trim()
    .split('\n')
    .map(line => JSON.parse(line) as unknown)

describe('the paddles of the demo', () => {
  const run = (...words: string[]) => said([...words, '--workspace', join(folder, 'demo/workspace.sqlite')])
  beforeAll(async () => {
    const demo = await said(['demo', '--dir', join(folder, 'demo'), '--json'])
    expect(demo.code).toBe(0)
    const { hits } = JSON.parse(demo.out) as { hits: { paddle: string }[] }
    for (const { paddle } of hits) sampled.add(paddle)
  })
  /** The paddles that the sample clips show; the others belong to the invented season. */
  const sampled = new Set<string>()

  it('are one document of whorl.paddles/1, the highest first, every hit in a figure or held back', async () => {
    const answer = await run('paddles', '--json')
    expect([answer.code, answer.err]).toEqual([0, ''])
    const { paddles, percentileDefinition } = paddlesDocumentSchema.parse(JSON.parse(answer.out))
    expect(percentileDefinition).toBe('strictly-below')
    const rated = paddles.filter(one => one.meanRpm !== null)
    expect(rated.length).toBeGreaterThan(3)
    expect(rated.map(one => one.rank)).toEqual(rated.map((_, i) => i + 1))
    expect(rated.map(one => one.percentile)).toEqual(
      rated.map((_, i) => expect.closeTo((100 * (rated.length - 1 - i)) / (rated.length - 1), 9)),
    )
    for (const { band, meanRpm, rank, rankBand } of rated) {
      expect(band!.lowRpm).toBeLessThan(meanRpm!)
      expect(band!.highRpm).toBeGreaterThan(meanRpm!)
      expect(rankBand!.low).toBeLessThanOrEqual(rank!)
      expect(rankBand!.high).toBeGreaterThanOrEqual(rank!)
    }
    const ofSamples = paddles.filter(one => sampled.has(one.paddle))
    expect(ofSamples.reduce((sum, one) => sum + one.hits + one.heldBack, 0)).toBe(14)
    expect(paddles.length).toBeGreaterThan(60)
  })
  it('are the same the second time, rank bands too', async () => {
    expect((await run('paddles', '--json')).out).toBe((await run('paddles', '--json')).out)
  })
  it('are a table for a person', async () => {
    const { out } = await run('paddles')
    expect(out).toMatch(/^place +paddle +set-up +rpm +band \(95 %\) +hits +percentile +tier +flag$/m)
    expect(out).toMatch(/^1st.* Ostrel 13 +stock .*top quarter/m)
    expect(out).toMatch(/\d+ hits are held back/)
  })
  it('go by a person’s own tiers and another percentile where asked', async () => {
    const answer = await run(
      'paddles',
      '--json',
      '--tier',
      'high=2000',
      '--tier',
      'low=0',
      '--percentile',
      'inclusive',
    )
    const { paddles } = paddlesDocumentSchema.parse(JSON.parse(answer.out))
    for (const one of paddles) expect(one.tier).toBe(one.meanRpm! >= 2000 ? 'high' : 'low')
    expect(paddles[0]!.percentile).toBe(100)
    expect(paddles.at(-1)!.percentile).toBeCloseTo(100 / paddles.length, 9)
  })

  it('compare as whorl.compare/1, a line a pair, as they were named', async () => {
    const answer = await run(
      'compare',
      'Ostrel 13',
      'Ostrel 16',
      'Marrow Flint / after 40 hours of play',
      '--json',
    )
    expect([answer.code, answer.err]).toEqual([0, ''])
    const pairs = linesOf(answer).map(line => compareDocumentSchema.parse(line))
    expect(pairs.map(({ a, b }) => [a, b])).toEqual([
      ['Ostrel 13', 'Ostrel 16'],
      ['Ostrel 13', 'Marrow Flint / after 40 hours of play'],
      ['Ostrel 16', 'Marrow Flint / after 40 hours of play'],
    ])
    const { paddles } = paddlesDocumentSchema.parse(JSON.parse((await run('paddles', '--json')).out))
    const meanOf = (paddle: string) =>
      paddles.find(one => one.paddle === paddle && one.setUp === 'stock')!.meanRpm!
    expect(pairs[0]!.differenceRpm).toBeCloseTo(meanOf('Ostrel 13') - meanOf('Ostrel 16'), 9)
    expect(pairs[0]!.probabilityAOverB).toBeGreaterThan(0.99)
    expect(pairs[0]!.adjustedP).toBeLessThan(0.05)
  })
  it('compare stock against weighted in words', async () => {
    const { out } = await run('compare', 'Ostrel 16 / stock', 'Ostrel 16 / 4 g at three and nine')
    expect(out).toMatch(/difference −\d+ ± \d+ rpm, 95 % band −\d+ to \d+ rpm/)
    expect(out).toMatch(/They may spin alike \(p = 0\.\d{3}\)/)
  })
  it.each([
    ['one that is misspelt', ['Ostrl 13', 'Ostrel 16'], 1, 'paddle-unknown', '“Ostrel 13”'],
    ['one in other case', ['ostrel 13', 'Ostrel 16'], 1, 'paddle-unknown', '“Ostrel 13”'],
    ['an unknown set-up', ['Ostrel 16 / stok', 'Ostrel 13'], 1, 'paddle-unknown', '“Ostrel 16 / stock”'],
    ['one far from all', ['Kittiwake', 'Ostrel 16'], 1, 'paddle-unknown', 'whorl paddles'],
    ['the same twice', ['Ostrel 16', 'Ostrel 16 / stock'], 2, 'usage', 'once'],
    ['one alone', ['Ostrel 16'], 2, 'usage', '--help'],
  ])('name %s with the way out', async (_, words, code, problemCode, hint) => {
    const answer = await run('compare', ...words, '--json')
    expect(answer.code).toBe(code)
    const problem = problemSchema.parse(JSON.parse(answer.out))
    expect(problem.code).toBe(problemCode)
    expect(problem.hint).toContain(hint)
  })
})

describe('a workspace with little in it', () => {
  const file = join(folder, 'small.sqlite')
  const run = (...words: string[]) => said([...words, '--workspace', file])
  beforeAll(() => {
    const workspace = openWorkspace(file, { now: () => new Date(0) })
    fillWorkspace(workspace)
    const teal = workspace.createPaddle({ name: 'Teal', notes: '' })
    const setUps = ['worn', 'weighted'].map(name => workspace.addSetUp(teal.id, { name, notes: '' }))
    for (const paddle of setUps)
      giveHits(workspace, [{ setUpId: paddle.setUps.at(-1)!.id, rpm: 1900 }], '2026-06-01')
    workspace.close()
  })

  it('lists a paddle whose hits are all held back, without a place', async () => {
    const { paddles } = paddlesDocumentSchema.parse(JSON.parse((await run('paddles', '--json')).out))
    expect(paddles.at(-1)).toMatchObject({
      paddle: 'Merlin X',
      meanRpm: null,
      rank: null,
      percentile: null,
      hits: 0,
      heldBack: 1,
      flag: 'ambiguous',
    })
    expect((await run('paddles')).out).toMatch(/^– +Merlin X/m)
  })
  it.each([
    ['all of whose hits are held back', 'Merlin X', 'paddle-unrated'],
    ['of several set-ups, none of them stock', 'Teal', 'set-up-unclear'],
  ])('does not compare a paddle %s', async (_, name, code) => {
    const answer = await run('compare', 'Heron 14', name, '--json')
    expect(answer.code).toBe(1)
    expect(problemSchema.parse(JSON.parse(answer.out)).code).toBe(code)
  })
  it('says so where it is not there, and makes none', async () => {
    const answer = await said(['paddles', '--workspace', join(folder, 'none.sqlite'), '--json'])
    expect(answer.code).toBe(1)
    expect(problemSchema.parse(JSON.parse(answer.out)).code).toBe('file-not-found')
  })
})

it.each(['high', 'high=', '=2000', 'high=-5', 'high=fast'])(
  'a tier of “%s” is not understood',
  async tier => {
    expect((await said(['paddles', '--tier', tier])).code).toBe(2)
  },
)

it('places are written as people say them', () => {
  expect([1, 2, 3, 4, 11, 12, 13, 21, 22, 101, 111].map(ordinal).join(' ')).toBe(
    '1st 2nd 3rd 4th 11th 12th 13th 21st 22nd 101st 111th',
  )
})
