import { writeFileSync } from 'node:fs'
import { join } from 'node:path'
import { strFromU8, strToU8, unzipSync, type Zippable, zipSync } from 'fflate'
import { describe, expect, it } from 'vitest'
import { type Bundle, bundleSchema } from '../../../core/contract/bundle.ts'
import { makeBundle } from '../../../electron/bundle/make-bundle.ts'
import { readBundle } from '../../../electron/bundle/read-bundle.ts'
import { verifyBundle } from '../../../electron/bundle/verify-bundle.ts'
import { hashOf } from '../../../electron/export/hash-of.ts'
import { clicksOf } from '../../../electron/service/demo-file.ts'
import { missingEdits } from '../../../electron/service/missing-edits.ts'
import { places } from '../../../electron/service/places.ts'
import { createReader } from '../../../electron/service/reader.ts'
import { session } from '../../core/marking/sample-records.ts'
import { said } from '../cli/stand-in-world.ts'
import { probeOf, rejectedBy, temporaryFolder, temporaryWorkspace } from '../store/temporary.ts'

/** A paddle with one hit, marked as a person clicked on a sample clip. */
function measured() {
  const { workspace } = temporaryWorkspace()
  const clicks = clicksOf(places.samples, 'fast-240-a.mp4')
  const sessionId = workspace.createSession(session).id
  const clipId = workspace.addClip(sessionId, {
    path: '/clips/fast-240-a.mp4',
    probe: probeOf({ capture: { fps: 240, source: 'metadata', relativeUncertainty: 1e-4 } }),
    problem: null,
    timestampsSeconds: Array.from({ length: 200 }, (_, frame) => frame / 240),
  }).id
  const indexes = clicks.frames.map(frame => frame.index)
  const window = { fromFrame: Math.min(...indexes), toFrame: Math.max(...indexes) }
  const { hitId } = workspace.createHit(clipId, window).row
  for (const edit of missingEdits(workspace.hit(hitId).marks, clicks)) workspace.saveEdit(hitId, edit)
  const paddle = workspace.createPaddle({ name: 'Heron 14', notes: '' })
  workspace.assignHit(hitId, paddle.setUps[0]!.id)
  const reader = createReader(workspace)
  reader.read(hitId)
  workspace.saveEdit(hitId, { kind: 'decide', verdict: { state: 'accepted', reason: '' } })
  reader.read(hitId)
  const bundle = () =>
    makeBundle(workspace, { kind: 'paddle', id: paddle.id }, '0.1.0', async () => strToU8('png'))
  return { workspace, sessionId, bundle }
}

/** The bundle with what it says changed, and its manifest made to fit. */
function forged(bytes: Uint8Array, change: (bundle: Bundle) => void): Uint8Array {
  const files = unzipSync(bytes)
  const bundle = bundleSchema.parse(JSON.parse(strFromU8(files['bundle.json']!)))
  change(bundle)
  return packed({ ...files, 'bundle.json': strToU8(JSON.stringify(bundle)) })
}
function packed(files: Record<string, Uint8Array>): Uint8Array {
  const listed = Object.entries(files).filter(([path]) => path !== 'manifest.json')
  const manifest = {
    schema: 'whorl.manifest/1',
    files: listed.map(([path, bytes]) => ({ path, sha256: hashOf(bytes) })),
  }
  return zipSync({ ...files, 'manifest.json': strToU8(JSON.stringify(manifest)) })
}
const verdicts = (bytes: Uint8Array) => verifyBundle(readBundle('a.zip', bytes)).map(one => one.verdict)

describe('an evidence bundle', () => {
  it('has the same bytes each time, and every figure of it is made anew the same', async () => {
    const { bundle } = measured()
    const bytes = await bundle()
    expect(Buffer.from(await bundle()).equals(Buffer.from(bytes))).toBe(true)
    const read = readBundle('a.zip', bytes)
    expect(read.hits[0]!.row.reading!.rpm).toBeGreaterThan(1000)
    expect(read.hits[0]!.pictures).toHaveLength(3)
    expect(read.figures[0]).toMatchObject({ paddle: 'Heron 14', hits: 1 })
    expect(JSON.stringify(read)).not.toContain('/clips/')
    expect(verdicts(bytes)).toEqual(['same', 'same'])
  })

  it.each<[string, (bundle: Bundle) => void, string[]]>([
    [
      'a rate',
      b => {
        b.hits[0]!.row.reading!.rpm! += 0.01
      },
      ['different', 'different'],
    ],
    [
      'a band',
      b => {
        b.hits[0]!.row.reading!.band!.lowRpm += 1
      },
      ['different', 'same'],
    ],
    [
      'a flag',
      b => {
        b.hits[0]!.row.reading!.flag = 'near-ceiling'
      },
      ['different', 'different'],
    ],
    [
      'a mark',
      b => {
        const seen = b.hits[0]!.marks!.frames[2]!.seen[0]!
        if ('xPx' in seen) seen.xPx += 2
      },
      ['different', 'same'],
    ],
    [
      'a paddle’s mean',
      b => {
        b.figures[0]!.meanRpm += 1
      },
      ['same', 'different'],
    ],
    [
      'a hit taken out',
      b => {
        b.hits = []
      },
      ['different'],
    ],
    [
      'a figure taken out',
      b => {
        b.figures = []
      },
      ['same', 'different'],
    ],
  ])('with %s changed is not the same', async (_case, change, expected) => {
    expect(verdicts(forged(await measured().bundle(), change))).toEqual(expected)
  })

  it('of a reading from the surface says what could be checked', async () => {
    const surface = forged(await measured().bundle(), bundle => {
      bundle.hits[0]!.row.reading!.method = 'surface'
      bundle.hits[0]!.marks = null
    })
    const [hit] = verifyBundle(readBundle('a.zip', surface))
    expect(hit).toMatchObject({
      verdict: 'not-checked',
      said: expect.stringMatching(/budget and band agree/),
    })
    const wrong = forged(surface, bundle => {
      bundle.hits[0]!.row.reading!.budget[0]!.standardUncertaintyRpm *= 3
    })
    expect(verifyBundle(readBundle('a.zip', wrong))[0]).toMatchObject({ verdict: 'different' })
  })

  it('of a session holds its hits; of a paddle without any there is none', async () => {
    const { workspace, sessionId } = measured()
    const bytes = await makeBundle(workspace, { kind: 'session', id: sessionId }, '0.1.0', async () => null)
    expect(readBundle('a.zip', bytes)).toMatchObject({ of: { kind: 'session' }, hits: [{ pictures: [] }] })
    const { id } = workspace.createPaddle({ name: 'Kite', notes: '' })
    const none = rejectedBy(() => makeBundle(workspace, { kind: 'paddle', id }, '0.1.0', async () => null))
    expect(await none).toMatchObject({ code: 'bundle-empty' })
  })
})

/** A zip that says of its one file what is not so: fields of the central directory, by hand (PKWARE APPNOTE 4.3.12). */
function lying(size: number): Uint8Array {
  const zip = Buffer.from(zipSync({ 'bundle.json': strToU8('{}') }))
  const directory = zip.indexOf(Buffer.from('PK\u0001\u0002', 'latin1'))
  zip.writeUInt32LE(size, directory + 24)
  return zip
}

describe('a file that is no bundle is told as such, and nothing else happens', () => {
  const zip = (files: Zippable) => zipSync(files)
  it.each<[string, () => Uint8Array, RegExp]>([
    ['text', () => strToU8('hello'), /not a whole zip/],
    ['a zip cut off', () => zip({ 'a.txt': strToU8('x'.repeat(999)) }).slice(0, 60), /not a whole zip/],
    ['a zip of other things', () => zip({ 'a.txt': strToU8('x') }), /no manifest/],
    ['a way up', () => packed({ '../../etc/x': strToU8('x') }), /leads elsewhere/],
    ['a path from the root', () => packed({ '/etc/x': strToU8('x') }), /leads elsewhere/],
    ['a path of another system', () => packed({ 'C:\\x': strToU8('x') }), /leads elsewhere/],
    ['more than it could hold', () => lying(0xf0000000), /unpacks to more/],
    [
      'a file that its manifest lacks',
      () => {
        const files = unzipSync(packed({ 'a.txt': strToU8('x') }))
        return zip({ ...files, 'link.txt': strToU8('/etc/passwd') })
      },
      /manifest does not/,
    ],
    [
      'a file that was changed',
      () => {
        const files = unzipSync(packed({ 'bundle.json': strToU8('{}') }))
        return zip({ ...files, 'bundle.json': strToU8('{ }') })
      },
      /not as it was packed/,
    ],
    [
      'a bundle of nonsense',
      () => packed({ 'bundle.json': strToU8('{"schema":"whorl.bundle/1"}') }),
      /bundle\.json/,
    ],
  ])('%s', (_case, make, words) => {
    expect(() => readBundle('a.zip', make())).toThrow(words)
  })

  it('a bomb that calls itself small gets no more room than it asks for', () => {
    const zip = Buffer.from(packed({ 'bundle.json': new Uint8Array(8 * 1024 ** 2) }))
    const directory = zip.indexOf(Buffer.from('PK\u0001\u0002', 'latin1'))
    zip.writeUInt32LE(10, directory + 24)
    expect(() => readBundle('a.zip', zip)).toThrow(/not as it was packed|not a whole zip/)
  })

  it('on the command line too, with the exit code of its kind', async () => {
    const folder = temporaryFolder()
    const [good, bad] = [join(folder, 'good.zip'), join(folder, 'bad.zip')]
    const bytes = await measured().bundle()
    writeFileSync(good, bytes)
    writeFileSync(
      bad,
      forged(bytes, bundle => {
        bundle.figures[0]!.meanRpm += 1
      }),
    )
    const fine = await said(['verify', good, '--json'])
    expect(fine.code).toBe(0)
    expect(JSON.parse(fine.out)).toMatchObject({ schema: 'whorl.verify/1', same: true })
    const wrong = await said(['verify', bad])
    expect(wrong).toMatchObject({ code: 1, out: expect.stringMatching(/not the same \(1 same, 1 different/) })
    expect(await said(['verify', join(folder, 'none.zip')])).toMatchObject({ code: 1 })
  })
})
