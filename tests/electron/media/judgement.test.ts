import { describe, expect, test } from 'vitest'
import { capturedFpsIn, captureRate } from '../../../electron/media/capture-rate.ts'
import { changeBetween } from '../../../electron/media/picture-change.ts'
import { repeatsIn } from '../../../electron/media/repeats.ts'
import { warningsFor } from '../../../electron/media/warnings.ts'

const evidence = { userFps: null, metadataFps: null, playbackFps: 240, repeatedShare: 0 }

describe('how fast the camera filmed', () => {
  test('is what a person says, whatever the file says', () => {
    const capture = captureRate({ ...evidence, userFps: 480, metadataFps: 240 })
    expect(capture).toMatchObject({ fps: 480, source: 'user' })
  })

  test('is what the camera wrote, rather than the rate of playing', () => {
    expect(captureRate({ ...evidence, metadataFps: 960, playbackFps: 30 })).toMatchObject({
      fps: 960,
      source: 'metadata',
    })
  })

  test.each([100, 120, 239.76, 480])('is the rate of playing at %d fps', playbackFps => {
    expect(captureRate({ ...evidence, playbackFps })).toMatchObject({
      fps: playbackFps,
      source: 'timestamps',
    })
  })

  test.each([23.976, 25, 30, 50, 60, 99, null])(
    'is unknown when all there is is playing at %d fps',
    playbackFps => {
      expect(captureRate({ ...evidence, playbackFps })).toEqual({
        fps: null,
        source: 'unknown',
        relativeUncertainty: null,
      })
    },
  )

  test('is unknown when repeats filled the file up to its rate', () => {
    expect(captureRate({ ...evidence, repeatedShare: 0.5 }).source).toBe('unknown')
  })

  test('has the tolerance of a rate that may be 1000/1001 of it: half-width 0.1 %, rectangular', () => {
    // JCGM 100:2008, 4.3.7: a / √3.
    expect(captureRate(evidence).relativeUncertainty).toBeCloseTo(0.001 / 1.7320508, 9)
  })

  test.each([
    [{ 'com.android.capture.fps': '240.000000' }, 240],
    [{ captureFps: '119.88p' }, 119.88],
    [{ 'COM.MAKER.CAPTURE-FRAME-RATE': '240000/1001' }, 240000 / 1001],
    [{ 'com.apple.quicktime.full-frame-rate-playback-intent': '0' }, null],
    [{ 'com.android.capture.fps': '0.000000' }, null],
    [{ 'com.android.capture.fps': 'fast' }, null],
    [{ encoder: '240', 'screen.capture.fps.note': '30' }, null],
  ])('is read from the tags %o', (tags, fps) => {
    expect(capturedFpsIn(tags as Record<string, string>)).toBe(fps)
  })
})

describe('repeated pictures', () => {
  const moving = (n: number) => Array.from({ length: n }, (_, i) => (i === 0 ? 0 : 40 + 10 * Math.sin(i)))
  const still = (n: number, level: number) =>
    Array.from({ length: n }, (_, i) => level * (1 + 0.5 * Math.sin(i)))

  test('are those that hardly change amid movement', () => {
    const changes = moving(60)
    for (const n of [20, 35, 36]) changes[n] = 0.4
    expect(repeatsIn(changes)).toEqual([20, 35, 36])
  })

  test.each([2, 4, 8])('are found when every real one comes %d times', times => {
    const changes = moving(64).map((change, i) => (i % times === 0 ? change : 0.3))
    const found = repeatsIn(changes)
    for (let n = 9; n < 55; n++) expect([n, found.includes(n)]).toEqual([n, n % times !== 0])
  })

  test('are not looked for in a still scene, before movement begins or after it ends', () => {
    expect(repeatsIn([...still(40, 0.2), ...moving(30).slice(1), ...still(40, 0.2)])).toEqual([])
  })

  test('are not seen in noise that a coder lets through now and then', () => {
    expect(repeatsIn(still(60, 3).map((change, i) => (i % 12 === 0 ? 0.1 : change)))).toEqual([])
  })

  test.each([[[]], [[0]], [[0, 5]]])('of %j there are none', changes => {
    expect(repeatsIn(changes)).toEqual([])
  })
})

describe('the change between two pictures', () => {
  test('is that of the block of 8 × 8 that changed most', () => {
    const before = new Uint8Array(16 * 16)
    const after = before.slice()
    after[0] = 10
    for (let y = 8; y < 16; y++) after.fill(32, 16 * y + 8, 16 * y + 12)
    // Half of the last block by 32, one pixel of the first by 10.
    expect(changeBetween(before, after, 16)).toBe(16)
  })

  test('covers a last row of blocks that is not full, of the part there is', () => {
    const after = new Uint8Array(10 * 10).fill(64)
    expect(changeBetween(new Uint8Array(100), after, 10)).toBe(64)
    const corner = new Uint8Array(100)
    corner[99] = 64
    expect(changeBetween(new Uint8Array(100), corner, 10)).toBeGreaterThan(0)
  })
})

describe('warnings', () => {
  const good = {
    frames: 60,
    playbackFps: 240,
    timestamps: { tickSeconds: 1 / 600, even: true, gaps: [], repeats: [] },
    capture: { fps: 240, source: 'metadata' as const, relativeUncertainty: 0.0006 },
    expectedFrames: 60,
    damagedFrames: 0,
    cutOff: false,
    rotationDeg: 0,
    squareStored: true,
    interlaced: false,
    hiddenFrames: 0,
    stretches: [{ fromFrame: 0, toFrame: 59, fps: 240 }],
    mixedFrames: [],
    bitsPerMovedPixel: 1,
    flicker: 0,
    viewMoved: 0,
  }
  test('are none for a clip that is as filmed', () => {
    expect(warningsFor({ ...good, timestamps: { ...good.timestamps, tickSeconds: 1 / 90000 } })).toEqual([])
  })

  test('name what was found, with its number and place', () => {
    const gaps = [{ afterFrame: 6, missing: 1 }]
    const warnings = warningsFor({
      ...good,
      playbackFps: 30,
      timestamps: { tickSeconds: null, even: false, gaps, repeats: [4, 9] },
      frames: 40,
      damagedFrames: 2,
      cutOff: true,
    })
    expect(warnings.map(({ code, message }) => ({ code, message }))).toEqual([
      {
        code: 'retimed',
        message: 'Filmed at 240 fps, plays at 30: 8 times slower than it happened. Times are corrected.',
      },
      {
        code: 'dropped-frames',
        message: '1 frame is missing, the first after frame 6; the times of the others are kept.',
      },
      {
        code: 'repeated-frames',
        message: '2 frames are only repeating the picture before, the first at 4; they carry no new time.',
      },
      { code: 'uneven-timestamps', message: expect.stringContaining('uneven times') },
      { code: 'truncated', message: 'The file is cut off: 40 of 60 frames can be seen.' },
      {
        code: 'damaged-frames',
        message: '2 frames are damaged in the midst of the clip and cannot be seen.',
      },
    ])
  })

  test('each say what they do to a reading and what to do about it', () => {
    const warnings = warningsFor({ ...good, interlaced: true, squareStored: false })
    expect(warnings.map(({ code, effect }) => [code, effect])).toEqual([
      ['rounded-timestamps', 'correct'],
      ['non-square-pixels', 'correct'],
      ['interlaced', 'refuse'],
    ])
    expect(warnings.map(({ todo }) => todo)).toEqual([
      'Nothing.',
      'Nothing; filming with square pixels keeps the picture sharper.',
      'Film progressive: every picture here holds two instants.',
    ])
  })

  test('say to ask the person when the capture rate is unknown', () => {
    const capture = { fps: null, source: 'unknown' as const, relativeUncertainty: null }
    const [warning] = warningsFor({ ...good, playbackFps: 29.97, capture })
    expect(warning).toMatchObject({
      code: 'capture-rate-unknown',
      message: expect.stringContaining('29.97 fps'),
    })
  })
})
