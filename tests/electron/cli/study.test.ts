import { mkdtempSync, rmSync, writeFileSync } from 'node:fs'
import { tmpdir } from 'node:os'
import { join } from 'node:path'
import { afterAll, describe, expect, it } from 'vitest'
import type { Marks } from '../../../core/contract/marks.ts'
import { problemSchema } from '../../../core/contract/problem.ts'
import { studyDocumentSchema } from '../../../core/contract/study.ts'
import { said } from './stand-in-world.ts'

const folder = mkdtempSync(join(tmpdir(), 'whorl-study-'))
afterAll(() => rmSync(folder, { recursive: true }))

const outline = { xPx: 400, yPx: 300, radiusPx: 45 }
/** Fourteen frames of a logo 25 px from the centre, each place off by what `off` says of its frame. */
const marks = (off: (frame: number) => [number, number], frames = 14): Marks => ({
  schema: 'whorl.marks/1',
  capture: { fps: 240 },
  picture: { widthPx: 960, heightPx: 540 },
  ball: { diameterMetres: 0.074 },
  marks: [{ id: 'logo', symmetryOrder: 1 }],
  frames: Array.from({ length: frames }, (_, index) => {
    const [dx, dy] = off(index)
    const seen = [
      { mark: 'logo', xPx: 400 + 25 * Math.cos(index) + dx, yPx: 300 + 25 * Math.sin(index) + dy },
    ]
    return { index, outline, seen }
  }),
})

let files = 0
function file(content: unknown): string {
  const path = join(folder, `marks-${files++}.json`)
  writeFileSync(path, JSON.stringify(content))
  return path
}
const documentOf = (out: string) => studyDocumentSchema.parse(JSON.parse(out))
const sign = (frame: number) => (frame % 2 === 0 ? 1 : -1)
const still = () => [0, 0] as [number, number]

describe('whorl study', () => {
  it('gives one person’s click error from two files: s_r² = Σd²/2n, here 1.5²/2 px²', async () => {
    const { code, out, err } = await said([
      'study',
      file(marks(still)),
      file(marks(frame => [1.5 * sign(frame), 1.5 * sign(frame >> 1)])),
      '--json',
    ])
    expect([code, err]).toEqual([0, ''])
    const { people, bias, reproducibility } = documentOf(out)
    expect([people.length, bias.length, reproducibility]).toEqual([1, 0, null])
    expect(people[0]!.pairs).toBe(14)
    expect(people[0]!.px!.standardDeviation).toBeCloseTo(1.5 / Math.SQRT2, 9)
    // About 1.06 px at about 25 px from the centre: 2.4°.
    expect(people[0]!.bearingDeg!.standardDeviation).toBeCloseTo(2.4, 0)
  })

  it('takes each file for another person’s with --people: bias, and what cannot be told apart', async () => {
    const { out } = await said([
      'study',
      file(marks(still)),
      file(marks(frame => [2 + 0.1 * sign(frame), 0])),
      '--people',
      '--json',
    ])
    const { people, bias, reproducibility } = documentOf(out)
    expect(people.map(({ person, px }) => [person, px])).toEqual([
      ['A', null],
      ['B', null],
    ])
    expect(bias[0]).toMatchObject({ person: 'B', against: 'A', items: 14 })
    expect(bias[0]!.xPx!.mean).toBeCloseTo(2, 9)
    expect(bias[0]!.xPx!.expandedUncertainty).toBeLessThan(0.1)
    expect(reproducibility!.betweenPeoplePx).toBeNull()
  })

  it('tells two people of two files each with --each 2, in words too', async () => {
    const wobble = (by: number) => (frame: number) => [by * sign(frame), by] as [number, number]
    const words = [still, wobble(1), wobble(2), wobble(3)].map(off => file(marks(off)))
    const { people, reproducibility } = documentOf(
      (await said(['study', ...words, '--each', '2', '--json'])).out,
    )
    expect(people.map(({ person, pairs }) => [person, pairs])).toEqual([
      ['A', 14],
      ['B', 14],
    ])
    expect(reproducibility!.betweenPeoplePx).toBeGreaterThan(1)
    const { out } = await said(['study', ...words, '--each', '2'])
    expect(out).toContain('person A, 14 second markings\n  click error (repeatability s_r) 0.71')
    expect(out).toContain('bias of B against A, 14 marks')
    expect(out).toContain('reproducibility s_R')
  })

  it('has no figure from too few marks in common, but the reason, and says which file stands alone', async () => {
    const { code, out } = await said(['study', file(marks(still, 4)), file(marks(still)), '--json'])
    expect(code).toBe(0)
    const { people, warnings } = documentOf(out)
    expect(people[0]!.px).toBeNull()
    expect(people[0]!.reason).toContain('4 marks have been placed twice')
    expect(warnings[0]).toMatchObject({ code: 'marked-once' })
    expect(warnings[0]!.message).toContain('10 marks are in no other file')
  })

  it.each([
    ['one file', 1, [], 2, 'usage'],
    ['files that --each does not divide', 3, ['--each', '2'], 2, 'usage'],
    ['half a file a person', 3, ['--each', '1.5'], 2, 'usage'],
  ] as const)('refuses %s', async (_, count, options, code, problem) => {
    const words = Array.from({ length: count }, () => file(marks(still)))
    const result = await said(['study', ...words, ...options, '--json'])
    expect(result.code).toBe(code)
    expect(problemSchema.parse(JSON.parse(result.out)).code).toBe(problem)
  })

  it('refuses what is no file of marks', async () => {
    const { code, out } = await said(['study', file(marks(still)), file({ schema: 'other/1' }), '--json'])
    expect(code).toBe(1)
    expect(problemSchema.parse(JSON.parse(out)).code).toBe('marks-invalid')
  })
})
