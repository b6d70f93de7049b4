import { describe, expect, it } from 'vitest'
import { sessionDetailsSchema } from '../../../core/contract/workspace.ts'
import { secondsOfText, textOfSeconds } from '../../../core/units/duration.ts'
import { metresOfText } from '../../../core/units/length.ts'
import { windowAround } from '../../../renderer/screens/sessions/hit-window.ts'
import { detailsOf, freshTexts, textsOf } from '../../../renderer/screens/sessions/session-fields.ts'
import { details } from '../stand-in-data.ts'

describe('the session form', () => {
  it('gives back what it was opened on', () => {
    const read = detailsOf(textsOf(details({ notes: 'New batteries.' })))
    expect(read.problems).toBeNull()
    expect(read.details).toEqual(details({ notes: 'New batteries.' }))
  })

  it('keeps an empty field as not known, in a form that the host takes', () => {
    const read = detailsOf({ ...freshTexts(undefined, '2026-05-14'), place: ' Workshop ' })
    expect(sessionDetailsSchema.parse(read.details)).toMatchObject({
      place: 'Workshop',
      camera: { captureFps: null, exposureSeconds: null, readoutSeconds: null, focalLengthPx: null },
      maxRpm: null,
    })
  })

  it('says which field it cannot read, all at once', () => {
    const texts = { ...textsOf(details()), captureFps: 'fast', exposure: '1/0', ballSize: '', readout: '-1' }
    expect(Object.keys(detailsOf(texts).problems ?? {}).sort()).toEqual([
      'ballSize',
      'captureFps',
      'exposure',
      'readout',
    ])
  })

  it('takes a readout of 0, which a global shutter has', () => {
    expect(detailsOf({ ...textsOf(details()), readout: '0' }).details?.camera.readoutSeconds).toBe(0)
  })

  it('starts a new session on the camera and ball of the one before, not on its day and notes', () => {
    const texts = freshTexts(details({ notes: 'Windy.' }), '2026-06-01')
    expect(texts).toMatchObject({ day: '2026-06-01', captureFps: '240', exposure: '1/2000 s', notes: '' })
  })
})

describe('times and lengths as people write them', () => {
  it.each([
    ['1/2000', 0.0005],
    ['1/2000 s', 0.0005],
    ['0.5ms', 0.0005],
    ['500 µs', 0.0005],
    ['.0005', 0.0005],
    ['1/0', null],
    ['0', null],
    ['-1ms', null],
    ['soon', null],
    ['', null],
  ])('%s is %d s', (text, seconds) => {
    const read = secondsOfText(text)
    if (seconds === null) expect(read).toBeNull()
    else expect(read).toBeCloseTo(seconds, 12)
  })

  it.each([
    ['74mm', 0.074],
    ['7.4 cm', 0.074],
    // 1 in = 25.4 mm exactly (international yard and pound agreement, 1959).
    ['2.9in', 0.07366],
    ['0.074', 0.074],
    ['big', null],
    ['0 mm', null],
  ])('%s is %d m', (text, metres) => {
    const read = metresOfText(text)
    if (metres === null) expect(read).toBeNull()
    else expect(read).toBeCloseTo(metres, 12)
  })

  it('shows a shutter time as a camera does, and one that is none as milliseconds', () => {
    expect(textOfSeconds(0.0005)).toBe('1/2000\u00a0s')
    expect(textOfSeconds(0.00234)).toBe('2.34\u00a0ms')
  })
})

describe('the first window of a new hit', () => {
  it('is a quarter of a second to both sides of the chosen frame', () => {
    expect(windowAround(400, { frames: 2400, fps: 240 })).toEqual({ fromFrame: 340, toFrame: 460 })
  })
  it('stays inside the clip', () => {
    expect(windowAround(10, { frames: 2400, fps: 240 })).toEqual({ fromFrame: 0, toFrame: 70 })
    expect(windowAround(2399, { frames: 2400, fps: 240 })).toEqual({ fromFrame: 2339, toFrame: 2399 })
  })
  it('is the whole of a short clip', () => {
    expect(windowAround(3, { frames: 96, fps: 240 })).toEqual({ fromFrame: 0, toFrame: 95 })
    expect(windowAround(0, { frames: 1, fps: 240 })).toEqual({ fromFrame: 0, toFrame: 0 })
  })
})
