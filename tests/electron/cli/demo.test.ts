import { existsSync, mkdtempSync, readdirSync, rmSync } from 'node:fs'
import { tmpdir } from 'node:os'
import { join } from 'node:path'
import { afterAll, beforeAll, expect, it } from 'vitest'
import { type Said, said } from './stand-in-world.ts'

type Hit = {
  clip: string
  rpm: number
  band: { lowRpm: number; highRpm: number }
  flag: string
  verdict: string
  truthRpm: number
}
type Run = { hits: Hit[]; lines: { action: string; paddle: string }[]; workspace: string; ratings: string }

const folder = mkdtempSync(join(tmpdir(), 'whorl-demo-'))
const samples = join(import.meta.dirname, '../../../sample-clips')
const demo = (...words: string[]): Promise<Said> => said(['demo', '--dir', folder, ...words])
let [first, second]: [Said, Said] = [
  { code: -1, out: '', err: '' },
  { code: -1, out: '', err: '' },
]
const runOf = ({ out }: Said): Run => JSON.parse(out) as Run

beforeAll(async () => {
  first = await demo('--json')
  second = await demo('--json')
})
afterAll(() => rmSync(folder, { recursive: true }))

it('reads every sample clip and says where it wrote', () => {
  expect([first.code, first.err]).toEqual([0, ''])
  const { hits, workspace, ratings } = runOf(first)
  const clips = readdirSync(samples).filter(name => name.endsWith('.truth.json'))
  expect(hits.map(hit => hit.clip.replace(/\.\w+$/, '.truth.json')).sort()).toEqual(clips.sort())
  expect(workspace).toBe(join(folder, 'workspace.sqlite'))
  expect([existsSync(workspace), existsSync(ratings)]).toEqual([true, true])
})

it('reads each within its band’s doubled width of the rendered truth', () => {
  for (const { clip, rpm, band, truthRpm } of runOf(first).hits)
    expect(Math.abs(rpm - truthRpm), clip).toBeLessThan(band.highRpm - band.lowRpm)
})

it('accepts what has one explanation and holds back what has several', () => {
  const { hits } = runOf(first)
  for (const { clip, flag, verdict } of hits)
    expect(verdict, clip).toBe(flag === 'ambiguous' ? 'held-back' : 'accepted')
  expect(hits.find(hit => hit.clip === 'aliased-60.mp4')!.flag).toBe('ambiguous')
  expect(hits.find(hit => hit.clip === 'topspin-240-a.mp4')!.flag).toBe('clear')
})

it('adds the figures the first time and leaves them alone the second', () => {
  const actions = (run: Said) => [...new Set(runOf(run).lines.map(line => line.action))].sort()
  expect(actions(first)).toEqual(['add', 'held-back'])
  expect(actions(second)).toEqual(['held-back', 'same'])
  expect(second.code).toBe(0)
  expect(runOf(second).hits).toEqual(runOf(first).hits)
})

it('prints a table for a person, and opens nothing where nobody watches', async () => {
  const { code, out, err } = await demo()
  expect([code, err]).toEqual([0, ''])
  expect(out).toMatch(/^clip +rpm +band \(95 %\) +flag +truth$/m)
  expect(out).toMatch(/^aliased-60\.mp4 .* ambiguous +2330$/m)
  expect(out).toContain(join(folder, 'ratings.sqlite'))
  expect(out).not.toContain('http://')
})

it('opens nothing for a person who asks not to, nor in continuous integration', async () => {
  const asked = await said(['demo', '--dir', folder, '--no-open'], { outIsTerminal: true })
  const ci = await said(['demo', '--dir', folder], { outIsTerminal: true, env: { CI: 'true' } })
  for (const { code, out } of [asked, ci]) {
    expect(code).toBe(0)
    expect(out).not.toContain('http://')
  }
})
