import { mkdtempSync, readFileSync, rmSync } from 'node:fs'
import { tmpdir } from 'node:os'
import { join } from 'node:path'
import { extractText, getDocumentProxy } from 'unpdf'
import { afterAll, beforeAll, describe, expect, it } from 'vitest'
import { problemSchema } from '../../../core/contract/problem.ts'
import { openWorkspace } from '../../../electron/store/open-workspace.ts'
import { said } from '../cli/stand-in-world.ts'
import { giveHits } from '../export/filled-workspace.ts'

const folder = mkdtempSync(join(tmpdir(), 'whorl-reports-'))
const workspaceFile = join(folder, 'workspace.sqlite')
const names = ['Heron 14', '<script>alert(1)</script>', 'מחבט בדיקה', '🏓 flat', 'W'.repeat(200)]

beforeAll(() => {
  const workspace = openWorkspace(workspaceFile, { now: () => new Date(0) })
  for (const [i, name] of names.entries()) {
    const setUpId = workspace.createPaddle({ name, notes: '' }).setUps[0]!.id
    const rates = [2310, 2290, 2335].map(rpm => ({ setUpId, rpm: rpm - 90 * i }))
    giveHits(workspace, rates, `2026-05-${String(10 + i)}`)
  }
  workspace.close()
})
afterAll(() => rmSync(folder, { recursive: true }))

async function reportTo(file: string, ...words: string[]): Promise<Buffer> {
  const to = join(folder, file)
  const answer = await said(['report', ...words, '--workspace', workspaceFile, '--to', to])
  expect([answer.code, answer.err]).toEqual([0, ''])
  return readFileSync(to)
}
const textOf = async (pdf: Buffer) =>
  extractText(await getDocumentProxy(new Uint8Array(pdf)), { mergePages: true })

describe('a PDF report', () => {
  it('says figure, band, hits, budget, camera, cautions and version', async () => {
    const { text, totalPages } = await textOf(await reportTo('heron.pdf', 'Heron 14'))
    expect(totalPages).toBeGreaterThanOrEqual(2)
    expect(totalPages).toBeLessThanOrEqual(4)
    // 2310, 2290 and 2335 with equal bands: the mean is their arithmetic one, 2311.67.
    expect(text).toMatch(/mean spin\s+231[02] ± \d+ rpm/)
    for (const words of [
      'Spin of Heron 14',
      'drive 01.mp4',
      'What makes the band of a hit',
      'Camera and time check',
      'not a certification',
      'eye protection',
      'method 1',
    ])
      expect(text.replace(/\s+/g, ' ')).toContain(words)
  })
  it('carries its fonts and is dated by its evidence', async () => {
    const pdf = (await reportTo('fonts.pdf', 'Heron 14')).toString('latin1')
    const fonts = pdf.match(/\/Type \/Font\n/g) ?? []
    expect(fonts.length).toBeGreaterThan(0)
    expect(pdf.match(/\/FontFile2 \d+ 0 R/g)?.length).toBe(pdf.match(/\/FontDescriptor \d+ 0 R/g)?.length)
    expect(pdf).toContain('(D:20260510120000Z)')
  })
  it.each(names)('of a paddle named %s holds its name and stays within its pages', async name => {
    const { text } = await textOf(await reportTo('named.pdf', name))
    const squeezed = text.replace(/\s+/g, '')
    if (/^[ -~]+$/.test(name)) expect(squeezed).toContain(name.replace(/\s+/g, ''))
    const document = await getDocumentProxy(new Uint8Array(readFileSync(join(folder, 'named.pdf'))))
    for (let number = 1; number <= document.numPages; number++) {
      const page = await document.getPage(number)
      const [, , width = 0] = page.view
      for (const item of (await page.getTextContent()).items)
        if ('transform' in item && item.str.trim() !== '')
          expect(item.transform[4] + item.width).toBeLessThanOrEqual(width - 20)
    }
  })
})

it('a name from the right is read from the right in a PDF', async () => {
  const { text } = await textOf(await reportTo('hebrew.pdf', names[2]!))
  // A reader of PDFs gives the letters in logical order or as they stand; either way both words are there.
  const words = names[2]!.split(' ')
  for (const word of words)
    expect([word, [...word].reverse().join('')].some(each => text.includes(each))).toBe(true)
})

it.each([
  ['a paddle', 'pdf', ['Heron 14']],
  ['a comparison', 'html', ['Heron 14', '🏓 flat', names[1]!]],
  ['a session', 'html', ['--session', '2026-05-12']],
])('the same evidence gives the same bytes twice, for %s as %s', async (_, ending, words) => {
  const first = await reportTo(`first.${ending}`, ...words)
  expect(first.equals(await reportTo(`second.${ending}`, ...words))).toBe(true)
})

it('an HTML report shows markup in a name as text, asks for nothing and holds no script', async () => {
  const html = (await reportTo('hostile.html', names[1]!)).toString()
  expect(html).toContain('&lt;script&gt;alert(1)&lt;/script&gt;')
  expect(html).not.toMatch(/<script|\son\w+=|@import|<link|<iframe/i)
  for (const [, url] of html.matchAll(/(?:src|href)\s*=\s*"([^"]*)"|url\(([^)]*)\)/g))
    if (url !== undefined) expect(url).toMatch(/^(data:|#)/)
  expect(html).not.toMatch(/https?:\/\/(?!www\.w3\.org\/2000\/svg)/)
})

it.each([
  ['no place to write', ['report', 'Heron 14'], 2],
  ['nothing to report on', ['report', '--to', join(folder, 'x.pdf')], 2],
  ['an ending that says nothing', ['report', 'Heron 14', '--to', join(folder, 'x.doc')], 2],
  ['a paddle that is not there', ['report', 'Heron 15', '--to', join(folder, 'x.pdf')], 1],
  ['a day without a session', ['report', '--session', '2020-01-01', '--to', join(folder, 'x.pdf')], 2],
  ['a folder that is not there', ['report', 'Heron 14', '--to', join(folder, 'none', 'x.pdf')], 1],
])('%s is told with the way out', async (_, words, code) => {
  const answer = await said([...words, '--workspace', workspaceFile, '--json'])
  expect(answer.code).toBe(code)
  expect(problemSchema.parse(JSON.parse(answer.out)).hint).not.toBe('')
})

it('a line a paddle can be pasted as text, Markdown and CSV, and no name becomes a formula or markup', async () => {
  const words = ['Heron 14', names[1]!]
  expect((await reportTo('figures.txt', ...words)).toString()).toMatch(
    /^Heron 14: 231[02]\u00a0±\u00a0\d+ rpm \(95 %, 3 hits, 240 fps\), 100th percentile of 5\n/,
  )
  expect((await reportTo('figures.md', ...words)).toString()).toContain('\\<script\\>')
  const csv = (await reportTo('figures.csv', ...words)).toString()
  expect(csv.split('\r\n')).toHaveLength(4)
  expect(csv).toMatch(/^paddle,set_up,rpm,half_width_rpm,band_level,hits,percentile,flag,in_words\r\n/)
})
