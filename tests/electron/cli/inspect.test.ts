import { copyFileSync, mkdtempSync, rmSync, writeFileSync } from 'node:fs'
import { tmpdir } from 'node:os'
import { join } from 'node:path'
import { afterAll, describe, expect, it } from 'vitest'
import { clipSchema } from '../../../core/contract/clip.ts'
import { problemSchema } from '../../../core/contract/problem.ts'
import { said } from './stand-in-world.ts'

const samples = join(import.meta.dirname, '../../../sample-clips')
const clip = join(samples, 'topspin-240-a.mp4')
const folder = mkdtempSync(join(tmpdir(), 'whorl-inspect-'))
afterAll(() => rmSync(folder, { recursive: true }))

const documentsIn = (out: string): unknown[] =>
  out
    .trimEnd()
    .split('\n')
    .map(line => JSON.parse(line))

describe('whorl inspect', () => {
  it('prints whorl.clip/1 and nothing else', async () => {
    const { code, out, err } = await said(['inspect', clip, '--json'])
    expect([code, err]).toEqual([0, ''])
    // topspin-240-a.truth.json: 40 frames of 960 × 540 at 240 fps
    expect(clipSchema.parse(JSON.parse(out))).toMatchObject({
      path: clip,
      frames: 40,
      widthPx: 960,
      heightPx: 540,
      codec: 'h264',
    })
  })

  it('takes a person’s word on the capture rate', async () => {
    const { out } = await said(['inspect', join(samples, 'slowmo-30.mp4'), '--capture-fps', '240', '--json'])
    expect(clipSchema.parse(JSON.parse(out)).capture).toMatchObject({ fps: 240, source: 'user' })
  })

  it('tells a person what the clip is, and what to know before measuring', async () => {
    const { out } = await said(['inspect', join(samples, 'dropped-240.mp4')])
    expect(out).toContain('960 × 540')
    expect(out).toMatch(/times +\w+, \d+ missing in \d+ gaps?/)
    expect(out).toMatch(/^ {2}! {2}\w/m)
  })

  it('prints one document a line, a bad one among them as its problem', async () => {
    const { code, out, err } = await said(['inspect', clip, '/no/such.mp4', clip, '--json'])
    expect(code).toBe(1)
    expect(documentsIn(out).map(document => (document as { schema: string }).schema)).toEqual([
      'whorl.clip/1',
      'whorl.error/1',
      'whorl.clip/1',
    ])
    expect(err.trimEnd().split('\n')).toHaveLength(1)
  })

  it.each([
    'with space.mp4',
    "it's “quoted”.mp4",
    'line\nbreak.mp4',
    '🏓.mp4',
    '-y.mp4',
    '%03d.mp4',
    'file:x.mp4',
    'a|b.mp4',
  ])('opens a clip with the name %j', async name => {
    const path = join(folder, name)
    copyFileSync(clip, path)
    const { code, out } = await said(['inspect', path, '--json'])
    expect(code).toBe(0)
    expect(clipSchema.parse(JSON.parse(out))).toMatchObject({ path, frames: 40 })
  })

  it.each<[string, string, string | Buffer, string]>([
    ['an empty file', 'empty.mp4', '', 'clip-empty'],
    ['a text file', 'notes.mp4', 'not a clip at all, just words\n'.repeat(50), 'clip-not-video'],
    ['a list of other files', 'list.m3u8', '#EXTM3U\n#EXTINF:1,\n/etc/passwd\n', 'clip-points-elsewhere'],
  ])('refuses %s by its name and ends with 1', async (_, name, content, problem) => {
    const path = join(folder, name)
    writeFileSync(path, content)
    const { code, out, err } = await said(['inspect', path, '--json'])
    expect(code).toBe(1)
    expect(problemSchema.parse(JSON.parse(out)).code).toBe(problem)
    expect(err).toContain(path)
  })

  it('refuses a folder', async () => {
    expect((await said(['inspect', folder])).code).toBe(1)
  })

  it('draws its progress for a person and leaves nothing of it behind', async () => {
    const { out, err } = await said(['inspect', clip], { errIsTerminal: true })
    expect(out).not.toContain('\r')
    expect(err === '' || /\r *\r$/.test(err)).toBe(true)
  })

  it('ends with 130 when it is interrupted', async () => {
    const interrupt = new AbortController()
    interrupt.abort()
    const { code, out } = await said(['inspect', clip], { signal: interrupt.signal })
    expect([code, out]).toEqual([130, ''])
  })
})
