import { mkdtempSync, readFileSync, rmSync, writeFileSync } from 'node:fs'
import { tmpdir } from 'node:os'
import { join } from 'node:path'
import { afterAll, describe, expect, it } from 'vitest'
import { problemSchema } from '../../../core/contract/problem.ts'
import { readingDocumentSchema } from '../../../core/contract/reading.ts'
import { rawDatabase } from '../store/raw-database.ts'
import { said } from './stand-in-world.ts'

const samples = join(import.meta.dirname, '../../../sample-clips')
/** The smallest sample. */
const clip = join(samples, 'topspin-240-c.mp4')
const truth = JSON.parse(readFileSync(join(samples, 'topspin-240-c.truth.json'), 'utf8'))
const folder = mkdtempSync(join(tmpdir(), 'whorl-read-'))
const workspace = join(folder, 'workspace.sqlite')
afterAll(() => rmSync(folder, { recursive: true }))

describe('whorl read', () => {
  it('prints one whorl.reading/1 a clip, with its flights; a bad clip stops no other', async () => {
    const text = join(folder, 'notes.mp4')
    writeFileSync(text, 'not a clip at all, just words\n'.repeat(50))
    const words = ['read', text, clip, '--exposure', '1/2000', '--workspace', workspace, '--json']
    const { code, out, err } = await said(words)
    const [bad, good] = out.trimEnd().split('\n')
    expect(code).toBe(1)
    expect(problemSchema.parse(JSON.parse(bad!)).code).toBe('clip-not-video')
    expect(err.trimEnd().split('\n')).toHaveLength(1)
    const { clip: seen, readings } = readingDocumentSchema.parse(JSON.parse(good!))
    expect(seen?.path).toBe(clip)
    expect(readings).toHaveLength(1)
    expect(readings[0]!.method).toBe('surface')
    expect(Math.abs(readings[0]!.rpm! / truth.flights[0].rpm - 1)).toBeLessThan(0.005)
  })

  it('does not read again what the workspace keeps', async () => {
    // What is kept gets a figure of its own: an answer made anew would not have it.
    const kept = rawDatabase(workspace)
    kept.run(`UPDATE flights_read SET flights = json_set(flights, '$.readings[0].rpm', 1234.5)`)
    kept.close()
    const words = ['read', clip, '--exposure', '1/2000', '--workspace', workspace, '--json']
    expect(JSON.parse((await said(words)).out).readings[0].rpm).toBe(1234.5)
  })

  it('tells a person the figure, with its band', async () => {
    const { code, out } = await said(['read', clip, '--exposure', '1/2000', '--workspace', workspace])
    expect(code).toBe(0)
    expect(out).toMatch(/^\d+ ± \d+ rpm, \w/)
    expect(out).toContain('surface fit of')
  })

  it.each([
    ['one end of a window alone', ['--from', '3']],
    ['a ball by name and by size', ['--ball', 'pickleball', '--ball-diameter', '74mm']],
    ['a sense that is none', ['--sense', 'left']],
    ['a frame that is none', ['--from', '-1', '--to', '4']],
  ])('does not take %s', async (_, words) => {
    expect((await said(['read', clip, ...words])).code).toBe(2)
  })

  it('ends with 130 when it is interrupted', async () => {
    const interrupt = new AbortController()
    interrupt.abort()
    const { code, out } = await said(['read', clip], { signal: interrupt.signal })
    expect([code, out]).toEqual([130, ''])
  })
})
