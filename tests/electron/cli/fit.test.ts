import { mkdtempSync, readdirSync, readFileSync, rmSync, writeFileSync } from 'node:fs'
import { tmpdir } from 'node:os'
import { join } from 'node:path'
import { afterAll, describe, expect, it } from 'vitest'
import type { Marks } from '../../../core/contract/marks.ts'
import { problemSchema } from '../../../core/contract/problem.ts'
import { readingDocumentSchema } from '../../../core/contract/reading.ts'
import { said } from './stand-in-world.ts'

const folder = mkdtempSync(join(tmpdir(), 'whorl-fit-'))
afterAll(() => rmSync(folder, { recursive: true }))

/**
 * A logo seen as a direction on a ball that turns 58.25° a frame at 240 fps. 58.25 · 240 · 60 / 360 =
 * 2330 rpm: the table "Arithmetic, for tests" of the method.
 */
const marks = (): Marks => ({
  schema: 'whorl.marks/1',
  capture: { fps: 240, relativeUncertainty: 0 },
  picture: { widthPx: 960, heightPx: 540 },
  ball: { diameterMetres: 0.074 },
  marks: [{ id: 'logo', symmetryOrder: 1 }],
  frames: Array.from({ length: 12 }, (_, i) => ({
    index: i + 5,
    seen: [{ mark: 'logo', bearingDeg: (58.25 * i) % 360 }],
  })),
})

let files = 0
function file(content: unknown, name = `marks-${files++}.json`): string {
  const path = join(folder, name)
  writeFileSync(path, typeof content === 'string' ? content : JSON.stringify(content))
  return path
}
const documentsIn = (out: string): unknown[] =>
  out
    .trimEnd()
    .split('\n')
    .map(line => JSON.parse(line))

describe('whorl fit', () => {
  it('prints one reading as JSON and nothing else', async () => {
    const { code, out, err } = await said(['fit', file(marks()), '--json'])
    expect([code, err]).toEqual([0, ''])
    const [reading] = readingDocumentSchema.parse(JSON.parse(out)).readings
    expect(reading!.rpm).toBeCloseTo(2330, 3)
    expect(reading!.sense).toBe('clockwise')
  })

  it('reads standard input for -', async () => {
    const { code, out } = await said(['fit', '-', '--json'], { stdin: JSON.stringify(marks()) })
    expect(code).toBe(0)
    expect(readingDocumentSchema.parse(JSON.parse(out)).readings[0]!.rpm).toBeCloseTo(2330, 3)
  })

  it('prints one document a line, in order, a bad one among them as its problem', async () => {
    const { code, out, err } = await said(['fit', file(marks()), '/no/such.json', file(marks()), '--json'])
    const [first, second, third] = documentsIn(out)
    expect(code).toBe(1)
    expect(readingDocumentSchema.safeParse(first).success).toBe(true)
    expect(problemSchema.parse(second).code).toBe('file-not-found')
    expect(readingDocumentSchema.safeParse(third).success).toBe(true)
    expect(err.trimEnd().split('\n')).toHaveLength(1)
  })

  it('tells a person the figure, its band, its flag and what counting would have said', async () => {
    const { code, out } = await said(['fit', file(marks())])
    expect(code).toBe(0)
    expect(out).toMatch(/^23\d\d(\.\d+)? ± [\d.]+ rpm, clear, clockwise\n/)
    expect(out).toContain('95 % band')
    expect(out).toContain('turns 58.3° a frame, 6.18 frames a turn')
    expect(out).toContain('counting alone')
  })

  it.each(['with space.json', "it's “quoted”.json", 'line\nbreak.json', '🏓.json'])(
    'opens a file with the name %j',
    async name => {
      expect((await said(['fit', file(marks(), name), '--json'])).code).toBe(0)
    },
  )

  it('takes a name that starts with a dash after -- or with its folder', async () => {
    const path = file(marks(), '-x.json')
    expect((await said(['fit', path, '--json'])).code).toBe(0)
    const here = process.cwd()
    process.chdir(folder)
    try {
      expect((await said(['fit', '--json', '--', '-x.json'])).code).toBe(0)
      expect((await said(['fit', './-x.json'])).code).toBe(0)
      expect((await said(['fit', '-x.json'])).code).toBe(2)
    } finally {
      process.chdir(here)
    }
  })

  it('keeps a problem on one line whatever the file is called', async () => {
    const { err } = await said(['fit', '/no/\u001b[31msuch\nfile'])
    expect(err.trimEnd().split('\n')).toHaveLength(1)
    expect(err).not.toContain('\u001b')
  })
})

describe('whorl fit on files that are no marks', () => {
  const text = JSON.stringify(marks())
  const changed = (change: (m: Record<string, never> & ReturnType<typeof marks>) => void) => {
    const m = marks() as Parameters<typeof change>[0]
    change(m)
    return m
  }
  it.each<[string, unknown, string, string]>([
    ['an empty file', '', 'marks-not-json', 'empty'],
    ['a text file', 'hello', 'marks-not-json', 'JSON'],
    ['half a file', text.slice(0, 100), 'marks-not-json', 'JSON'],
    ['NaN in the text', text.replace('240', 'NaN'), 'marks-not-json', 'NaN is no JSON number'],
    [
      'Infinity in the text',
      text.replace('240', '-Infinity'),
      'marks-not-json',
      'Infinity is no JSON number',
    ],
    ['a number beyond all bounds', text.replace('240', '1e999'), 'marks-invalid', 'capture.fps'],
    ['a list', [], 'marks-invalid', 'the document'],
    ['null', 'null', 'marks-invalid', 'the document'],
    ['another schema', changed(m => Object.assign(m, { schema: 'whorl.clip/1' })), 'marks-invalid', 'schema'],
    ['no capture rate', changed(m => Object.assign(m, { capture: {} })), 'marks-invalid', 'capture.fps'],
    ['a rate of 0', changed(m => Object.assign(m.capture, { fps: 0 })), 'marks-invalid', 'capture.fps'],
    [
      'a rate in words',
      changed(m => Object.assign(m.capture, { fps: '240' })),
      'marks-invalid',
      'capture.fps',
    ],
    ['no marks', changed(m => Object.assign(m, { marks: [] })), 'marks-invalid', 'marks'],
    [
      'a frame before the clip',
      changed(m => Object.assign(m.frames[3]!, { index: -1 })),
      'marks-invalid',
      'frames.3.index',
    ],
    [
      'half a frame',
      changed(m => Object.assign(m.frames[3]!, { index: 1.5 })),
      'marks-invalid',
      'frames.3.index',
    ],
    [
      'a frame twice',
      changed(m => Object.assign(m.frames[3]!, { index: 5 })),
      'marks-invalid',
      'frame 5 is there twice',
    ],
    ['a mark twice', changed(m => m.marks.push(m.marks[0]!)), 'marks-invalid', '“logo” is there twice'],
    [
      'a mark nobody named',
      changed(m => Object.assign(m.frames[2]!.seen[0]!, { mark: 'dot' })),
      'marks-invalid',
      'frames.2',
    ],
    [
      'a hidden mark nobody named',
      changed(m => Object.assign(m.frames[2]!, { hidden: ['dot'] })),
      'marks-invalid',
      'frames.2',
    ],
    [
      'a place without a number',
      changed(m => m.frames[0]!.seen.push({ mark: 'logo', xPx: null, yPx: 1 } as never)),
      'marks-invalid',
      'frames.0.seen',
    ],
    [
      'a radius of 0',
      changed(m => Object.assign(m.frames[0]!, { outline: { xPx: 1, yPx: 1, radiusPx: 0 } })),
      'marks-invalid',
      'frames.0.outline.radiusPx',
    ],
  ])('refuses %s, says where, and ends with 1', async (_, content, problem, said1) => {
    const path = file(content)
    const { code, out, err } = await said(['fit', path, '--json'])
    expect(code).toBe(1)
    expect(problemSchema.parse(JSON.parse(out)).code).toBe(problem)
    expect(err).toContain(path)
    expect(err).toContain(said1)
    expect(err.trimEnd().split('\n')).toHaveLength(1)
  })

  it('refuses a folder, and a file that is not there', async () => {
    expect((await said(['fit', folder])).err).toContain('folder')
    expect((await said(['fit', join(folder, 'none')])).err).toContain('There is no file')
  })

  it('refuses a picture file', async () => {
    const path = join(folder, 'picture.png')
    writeFileSync(path, Buffer.from([0x89, 0x50, 0x4e, 0x47, 0, 0xff, 0xfe]))
    expect((await said(['fit', path])).code).toBe(1)
  })
})

describe('whorl fit on marks that cannot be measured', () => {
  const outline = { xPx: 100, yPx: 100, radiusPx: 30 }
  const point = (i: number, xPx: number) => ({ index: i, outline, seen: [{ mark: 'logo', xPx, yPx: 100 }] })
  it.each<[string, Partial<Marks>]>([
    ['no frames', { frames: [] }],
    ['one frame', { frames: [{ index: 1, seen: [{ mark: 'logo', bearingDeg: 0 }] }] }],
    ['a mark outside the ball', { frames: [point(1, 120), point(2, 120), point(3, 200)] }],
    ['a place without an outline', { frames: [{ index: 1, seen: [{ mark: 'logo', xPx: 1, yPx: 1 }] }] }],
    ['all hidden', { frames: [1, 2, 3].map(index => ({ index, seen: [], hidden: ['logo'] })) }],
    [
      'one time for all',
      {
        frames: [1, 2].map(index => ({ index, timeSeconds: 0, seen: [{ mark: 'logo', bearingDeg: index }] })),
      },
    ],
  ])('gives no figure for %s, but the reason, and ends with 0', async (_, part) => {
    const path = file({ ...marks(), ...part })
    const { code, out } = await said(['fit', path, '--json'])
    expect(code).toBe(0)
    const [reading] = readingDocumentSchema.parse(JSON.parse(out)).readings
    expect(reading!.rpm).toBeNull()
    expect(reading!.flag).not.toBe('clear')
    expect(reading!.reasons[0]).toMatch(/\w/)
    expect((await said(['fit', path])).out).toContain(reading!.reasons[0])
  })
})

describe('whorl fit on the sample clips’ marks', () => {
  const samples = join(import.meta.dirname, '../../../sample-clips')
  const names = readdirSync(samples).filter(name => name.endsWith('.clicks.json'))

  it('reads all of them at once, each a document', async () => {
    expect(names.length).toBeGreaterThanOrEqual(8)
    const { code, out } = await said(['fit', ...names.map(name => join(samples, name)), '--json'])
    expect(code).toBe(0)
    const documents = documentsIn(out).map(document => readingDocumentSchema.parse(document))
    expect(documents).toHaveLength(names.length)
    const indexes = (JSON.parse(readFileSync(join(samples, names[0]!), 'utf8')) as Marks).frames.map(
      f => f.index,
    )
    expect(documents[0]!.readings[0]!.window).toEqual({
      fromFrame: Math.min(...indexes),
      toFrame: Math.max(...indexes),
    })
  })
})
