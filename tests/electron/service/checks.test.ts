import { describe, expect, it } from 'vitest'
import { WhorlError } from '../../../core/contract/problem.ts'
import { checkClip } from '../../../electron/service/check-clip.ts'
import { rejectedBy } from '../store/temporary.ts'
import { openService } from './open-service.ts'
import { cameraDetails } from './stand-in-host.ts'
import { standInMedia } from './stand-in-media.ts'
import { standInVision } from './stand-in-vision.ts'

describe('a camera', () => {
  it('is kept, changed and removed, and each is said', async () => {
    const { call, events } = openService()
    const { id } = await call('cameras.keep', { cameraId: null, details: cameraDetails })
    await call('cameras.keep', { cameraId: id, details: { ...cameraDetails, exposureSeconds: null } })
    expect(await call('cameras.list', {})).toEqual([{ id, ...cameraDetails, exposureSeconds: null }])
    await call('cameras.remove', { cameraId: id })
    expect(await call('cameras.list', {})).toEqual([])
    expect(events.filter(event => event.kind === 'changed' && event.what === 'cameras')).toHaveLength(3)
  })
})

describe('a check', () => {
  it('by a counter needs no more than its numbers', async () => {
    const { call, file } = openService()
    const ask = {
      way: 'counter',
      nominalFps: 240,
      fromFrame: 10,
      toFrame: 1209,
      steps: 5,
      stepSeconds: 1,
    } as const
    // 1199 frames in 5 s.
    const { rate } = await call('checks.run', { path: file('c.mp4', 'clip'), ask })
    expect(rate).toMatchObject({ way: 'counter', nominalFps: 240, captureFps: 239.8 })
  })

  it('that finds nothing says why and what to do', async () => {
    const { call, file } = openService()
    const ask = { way: 'lamp', nominalFps: 240, lampHertz: 100 } as const
    expect(await rejectedBy(() => call('checks.run', { path: file('c.mp4', 'clip'), ask }))).toMatchObject({
      code: 'rate-not-checked',
    })
  })

  it('by a drop takes the ball’s own fall, from the hand to the floor', async () => {
    const { file } = openService()
    const { media } = standInMedia()
    const clip = await media.probe(file('drop.mp4', 'clip'))
    const { vision } = standInVision()
    const fps = 236
    // Held for 4 frames, falls from rest (9.80665 m/s², no drag to speak of for a heavy ball), then bounces up.
    const [radiusPx, metresPerPx] = [20, 0.074 / 40]
    const places = Array.from({ length: 70 }, (_, frame) => {
      const t = Math.max(0, frame - 4) / fps
      const y = 50 + (9.80665 * t * t) / 2 / metresPerPx
      return { frame, outline: { xPx: 300, yPx: frame < 60 ? y : 240 - frame, radiusPx } }
    })
    const falling = {
      ...vision,
      readClip: async () => ({
        clip,
        readings: [],
        outlines: [places.map(each => ({ ...each, centreUncertaintyPx: 0.1, radiusUncertaintyPx: 0.1 }))],
        contacts: [],
        features: [],
      }),
    }
    const ask = { way: 'drop', nominalFps: 240, massKilograms: 5, diameterMetres: 0.074 } as const
    const { rate, evidence } = await checkClip({ media, vision: falling }, '/', ask, {})
    expect(rate!.captureFps / fps).toBeCloseTo(1, 2)
    expect(evidence!.points.length).toBeGreaterThan(50)
    expect(evidence!.points.every(([frame]) => frame < 60)).toBe(true)
  })

  it('looks at clips in the named folders alone', async () => {
    const { call, folder, file } = openService(undefined, { folders: [] })
    file('c.mp4', 'clip')
    expect(await rejectedBy(() => call('checks.look', { path: `${folder}/c.mp4` }))).toBeInstanceOf(
      WhorlError,
    )
  })
})
