import { describe, expect, it } from 'vitest'
import type { Edit } from '../../../core/contract/bench.ts'
import { marksSchema } from '../../../core/contract/marks.ts'
import { applyEdit } from '../../../core/marking/apply-edit.ts'
import { captureFpsOf } from '../../../core/marking/capture-fps-of.ts'
import { type MarksSource, marksDocumentOf } from '../../../core/marking/marks-document-of.ts'
import { newHitMarks } from '../../../core/marking/new-hit-marks.ts'
import { clip, session } from './sample-records.ts'

const edits: Edit[] = [
  { kind: 'put-mark', mark: { id: 'band', kind: 'direction', symmetryOrder: 2 } },
  { kind: 'place-outline', outline: { frame: 8, xPx: 100, yPx: 60, radiusPx: 20 } },
  { kind: 'place-outline', outline: { frame: 12, xPx: 140, yPx: 60, radiusPx: 22 } },
  { kind: 'place-sighting', sighting: { kind: 'point', frame: 9, mark: 'logo', xPx: 111, yPx: 52 } },
  { kind: 'place-sighting', sighting: { kind: 'direction', frame: 9, mark: 'band', bearingDeg: 30 } },
  { kind: 'place-sighting', sighting: { kind: 'hidden', frame: 10, mark: 'logo' } },
  { kind: 'place-sighting', sighting: { kind: 'point', frame: 40, mark: 'logo', xPx: 1, yPx: 1 } },
  { kind: 'set-sense', sense: 'clockwise' },
  { kind: 'settle', settled: { rpm: 2330, sense: 'clockwise', reason: 'topspin drive' } },
]
const hit = edits.reduce((now, edit) => applyEdit(now, edit).hit, newHitMarks({ fromFrame: 8, toFrame: 20 }))
const frameTimesSeconds = Array.from({ length: 50 }, (_, frame) => frame / 240)
const source: MarksSource = { hit, clip, frameTimesSeconds, session, captureFps: 240 }

describe('a hit as whorl.marks/1', () => {
  it('is null with the reason while nobody knows the capture rate', () => {
    const document = marksDocumentOf({ ...source, captureFps: null })
    expect(document.marks).toBeNull()
    expect(document.reason).toMatch(/capture rate/)
  })

  it('meets the schema and holds what was placed inside the window, outlines interpolated', () => {
    const { marks } = marksDocumentOf(source)
    expect(marksSchema.parse(marks)).toEqual(marks)
    expect(marks?.frames).toEqual([
      { index: 8, timeSeconds: 8 / 240, outline: { xPx: 100, yPx: 60, radiusPx: 20 }, seen: [] },
      {
        index: 9,
        timeSeconds: 9 / 240,
        outline: { xPx: expect.closeTo(110, 9), yPx: 60, radiusPx: expect.closeTo(20.5, 9) },
        seen: [
          { mark: 'band', bearingDeg: 30 },
          { mark: 'logo', xPx: 111, yPx: 52 },
        ],
      },
      expect.objectContaining({ index: 10, seen: [], hidden: ['logo'] }),
      { index: 12, timeSeconds: 12 / 240, outline: { xPx: 140, yPx: 60, radiusPx: 22 }, seen: [] },
    ])
    expect(marks?.marks).toEqual([
      { id: 'band', symmetryOrder: 2 },
      { id: 'logo', symmetryOrder: 1 },
    ])
    expect(marks?.plausible).toEqual({ maxRpm: 5000, sense: 'clockwise' })
    expect(marks?.settled).toEqual({ rpm: 2330, sense: 'clockwise', reason: 'topspin drive' })
    expect(marks?.click).toEqual({ standardUncertaintyPx: 0.8 })
  })

  it('leaves out what nobody knows', () => {
    const camera = { ...session.camera, exposureSeconds: null, focalLengthPx: null }
    const { marks } = marksDocumentOf({
      ...source,
      hit: { ...hit, sense: null, settled: null },
      session: { ...session, camera, maxRpm: null, clickStandardUncertaintyPx: null },
    })
    expect(Object.keys(marks?.capture ?? {})).toEqual([
      'fps',
      'relativeUncertainty',
      'readoutSeconds',
      'readoutUncertaintySeconds',
      'tickSeconds',
    ])
    expect(marks?.plausible).toEqual({})
    expect(marks?.click).toEqual({})
    expect(marks).not.toHaveProperty('settled')
  })

  it('gives bearings without any outline', () => {
    const { marks } = marksDocumentOf({ ...source, hit: { ...hit, outlines: [] } })
    expect(marks?.frames.map(frame => frame.outline)).toEqual([undefined, undefined])
  })

  it('shrinks the tick of a slow-motion export with its times: 1/600 s at 30 fps for 240 is 1/4800 s', () => {
    const slow = { ...clip, playbackFps: 30, timestamps: { ...clip.timestamps, tickSeconds: 1 / 600 } }
    expect(marksDocumentOf({ ...source, clip: slow }).marks?.capture.tickSeconds).toBeCloseTo(1 / 4800, 12)
  })

  it('takes the calibrated uncertainty of the camera, else the file’s own where the rate is the file’s', () => {
    const camera = { ...session.camera, relativeUncertainty: null }
    const file = { ...clip, capture: { fps: 240, source: 'metadata' as const, relativeUncertainty: 2e-4 } }
    const uncertainty = (changes: Partial<MarksSource>) =>
      marksDocumentOf({ ...source, clip: file, ...changes }).marks?.capture.relativeUncertainty
    expect(uncertainty({})).toBe(session.camera.relativeUncertainty)
    expect(uncertainty({ session: { ...session, camera } })).toBe(2e-4)
    expect(uncertainty({ session: { ...session, camera }, captureFps: 120 })).toBeUndefined()
  })
})

describe('the capture rate of a clip', () => {
  const camera = { captureFps: 120, relativeUncertainty: null }
  const of = (fps: number | null, source: 'user' | 'metadata' | 'timestamps' | 'unknown') =>
    captureFpsOf({ capture: { fps, source, relativeUncertainty: null } }, camera)
  it.each([
    ['a person’s word on the clip before all', of(240, 'user'), 240],
    ['what the camera wrote into the file', of(240, 'metadata'), 240],
    [
      'the session’s camera before frame times, which an export may have stretched',
      of(30, 'timestamps'),
      120,
    ],
    ['the session’s camera where the file says nothing', of(null, 'unknown'), 120],
  ])('is %s', (_case, found, expected) => expect(found).toBe(expected))

  it('is the measured one of a camera where the file names the same mode, the file’s where it names another', () => {
    const measured = { captureFps: 239.76, relativeUncertainty: 1e-4 }
    const inFile = (fps: number, source: 'user' | 'metadata') =>
      captureFpsOf({ capture: { fps, source, relativeUncertainty: null } }, measured)
    expect(inFile(240, 'metadata')).toBe(239.76)
    expect(inFile(120, 'metadata')).toBe(120)
    expect(inFile(240, 'user')).toBe(240)
  })

  it('is null where nobody knows', () => {
    const clipSays = { capture: { fps: null, source: 'unknown' as const, relativeUncertainty: null } }
    expect(captureFpsOf(clipSays, { captureFps: null, relativeUncertainty: null })).toBeNull()
  })
})
