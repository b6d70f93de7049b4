import { cleanup, fireEvent, screen, waitFor } from '@testing-library/react'
import { afterEach, describe, expect, it } from 'vitest'
import type { CameraProfile } from '../../../core/contract/cameras.ts'
import { cameraRead, cameraTexts } from '../../../renderer/screens/cameras/camera-fields.ts'
import { Cameras } from '../../../renderer/screens/cameras/cameras.tsx'
import { checkRead } from '../../../renderer/screens/cameras/check-fields.ts'
import { type CheckTexts, type GuideWay, startCheck } from '../../../renderer/screens/cameras/check-ways.ts'
import { Sessions } from '../../../renderer/screens/sessions/sessions.tsx'
import { shownOn } from '../shown.tsx'
import { manyOf } from '../stand-in-data.ts'
import { standInHost } from '../stand-in-host.ts'

afterEach(() => {
  cleanup()
  location.hash = ''
})
const camera: CameraProfile = {
  id: 'k',
  name: 'Phone A',
  widthPx: 1920,
  heightPx: 1080,
  nominalFps: 240,
  rate: {
    captureFps: 239.76,
    relativeUncertainty: 1e-4,
    by: { way: 'turntable', clip: 'table.mp4', day: '2026-05-30' },
  },
  readout: null,
  focal: null,
  exposureSeconds: 0.0005,
  notes: '',
}
const data = () => ({ ...manyOf({ sessions: 1, clips: 0, hits: 0 }), cameras: [camera] })
const press = (name: string | RegExp) => fireEvent.click(screen.getByRole('button', { name }))
const type = (label: string | RegExp, value: string) =>
  fireEvent.change(screen.getByLabelText(label), { target: { value } })

describe('the camera form', () => {
  const read = (changes: Partial<ReturnType<typeof cameraTexts>>) =>
    cameraRead({ ...cameraTexts(camera), ...changes }, camera, '2026-06-01')

  it('gives back what it was opened on, with the checks that it came from', () => {
    const { id: _, ...details } = camera
    expect(read({})).toMatchObject({ details, problems: {} })
  })

  it('keeps a figure that was typed over as a person’s word of that day', () => {
    expect(read({ rate: '239.8' }).details!.rate).toEqual({
      captureFps: 239.8,
      relativeUncertainty: 1e-4,
      by: { way: 'said', clip: null, day: '2026-06-01' },
    })
  })

  it('takes mixed units and says what it understood', () => {
    // 960/tan 45° = 960 px (pinhole).
    const { details, notes } = read({ readout: '0', focal: '90°', exposure: '0.25 ms' })
    expect(details).toMatchObject({ readout: { seconds: 0 }, exposureSeconds: 0.00025 })
    expect(details!.focal!.focalLengthPx).toBeCloseTo(960, 9)
    expect(notes.exposure).toContain('1/4000')
    expect(notes.readout).toBe('global shutter')
  })

  it.each([
    ['name', ' '],
    ['fps', '0'],
    ['fps', '-240'],
    ['picture', '1920'],
    ['rate', '480'],
    ['rateUncertainty', ''],
    ['readout', '40 ms'],
    ['exposure', '1/50'],
    ['exposure', '2 m'],
    ['focal', '180°'],
  ] as const)('%s “%s” is refused at its field', (field, text) => {
    const { details, problems } = read({ [field]: text })
    expect(details).toBeNull()
    expect(problems[field]).toBeTruthy()
  })
})

describe('the fields of a check', () => {
  const read = (way: GuideWay, texts: Partial<CheckTexts>) =>
    checkRead(way, { ...startCheck, ...texts }, camera, { widthPx: 1920, shrunk: 1 })

  it('ask with the rate that the camera is set to; a readout with the true one', () => {
    expect(read('turntable', {}).ask).toMatchObject({ nominalFps: 240, knownRelative: 0.002 })
    expect(read('bands', { mains: '60 Hz' }).ask).toEqual({
      way: 'bands',
      captureFps: 239.76,
      lampHertz: 120,
    })
  })

  it.each([
    ['turntable', { rpm: '33 1/3' }, 'rpm', '33.3333 rpm'],
    ['lamp', { mains: '50' }, 'mains', 'a lamp flashes 100 times a second'],
    ['drop', { mass: '0.85 oz' }, 'mass', /24.1.g/],
    ['ball', { distance: '6 ft', across: '60' }, 'distance', /1\.83.m/],
  ] as const)('of %s say what %j was understood as', (way, texts, field, note) => {
    expect(read(way, texts).notes[field]).toMatch(note)
  })

  it.each([
    ['turntable', { rpm: 'fast' }, 'rpm'],
    ['turntable', { knownTo: '200 %' }, 'knownTo'],
    ['lamp', { mains: '0' }, 'mains'],
    ['drop', { mass: '24' }, 'mass'],
    ['drop', { ball: 'an egg' }, 'ball'],
    ['counter', { fromFrame: '90', toFrame: '10', steps: '3' }, 'toFrame'],
    ['counter', { fromFrame: '1.5', toFrame: '10', steps: '3' }, 'fromFrame'],
    ['ball', { across: '-3' }, 'across'],
    ['width', { wide: '5 s' }, 'wide'],
    ['view', { angle: '180°' }, 'angle'],
  ] as const)('of %s refuse %j', (way, texts, field) => {
    const { ask, focal, problems } = read(way, texts)
    expect([ask, focal]).toEqual([null, null])
    expect(problems[field]).toBeTruthy()
  })
})

describe('the cameras', () => {
  it('take a figure from a check that led through its steps', async () => {
    const rate = {
      way: 'lamp' as const,
      nominalFps: 240,
      captureFps: 238,
      relativeUncertainty: 1e-3,
      rpmFactor: 238 / 240,
    }
    const host = standInHost(data(), {
      'checks.run': () => ({
        rate: { schema: 'whorl.rate-check/1', ...rate, remarks: ['A remark.'] },
        readout: null,
        evidence: {
          points: [
            [0, 1],
            [1, 2],
            [2, 1],
          ],
          joined: true,
          xWords: 'frame',
          yWords: 'brightness',
          lines: [],
          fit: null,
        },
      }),
    })
    shownOn(host, <Cameras cameraId={null} />)
    await screen.findByText(/by a turntable, table\.mp4, 30 May 2026/)
    press('Check again')
    fireEvent.click(screen.getByLabelText('A lamp on the mains'))
    press('Check')
    expect(screen.getByText('The clip that shows it.')).toBeTruthy()
    press('Choose the clip…')
    fireEvent.click(await screen.findByLabelText(/new-1\.mov/))
    press('Choose')
    await screen.findByText('1200 frames')
    press('Check')
    // 2000 rpm · 238/240 = 1983.3 rpm.
    expect(await screen.findByText(/2000 rpm at 240 fps truly turns at 1983\.3/)).toBeTruthy()
    expect(screen.getByRole('img', { name: 'brightness against frame' })).toBeTruthy()
    press('Keep it with this camera')
    await waitFor(() => expect(host.data.cameras![0]!.rate!.captureFps).toBe(238))
    expect(host.data.cameras![0]!.rate!.by).toMatchObject({ way: 'lamp', clip: 'new-1.mov' })
  })

  it('say where a check found nothing, with the way out', async () => {
    shownOn(standInHost(data()), <Cameras cameraId="k" />)
    await screen.findByText(/by a turntable/)
    press('Check again')
    press('Choose the clip…')
    fireEvent.click(await screen.findByLabelText(/new-1\.mov/))
    press('Choose')
    await screen.findByText('1200 frames')
    press('Check')
    expect(await screen.findByText(/no wave/)).toBeTruthy()
    expect(screen.queryByText('Keep it with this camera')).toBeNull()
  })

  it('are told what they are for where there is none yet', async () => {
    shownOn(standInHost({ ...data(), cameras: [] }), <Cameras cameraId={null} />)
    await screen.findByText(/“240 fps” is what a camera is set to/)
    press('New camera')
    press('Keep camera')
    expect(screen.getByText('A name, to choose it by.')).toBeTruthy()
  })
})

describe('a session', () => {
  it('is filled from a camera, says what it took, and keeps both that and a person’s change', async () => {
    const host = standInHost(data())
    shownOn(host, <Sessions sessionId={null} />)
    await screen.findByRole('heading', { name: 'Sessions' })
    press('New session')
    await screen.findByRole('option', { name: 'Phone A' })
    fireEvent.change(screen.getByLabelText('Fill from'), { target: { value: 'Phone A' } })
    expect(screen.getAllByText('from Phone A').length).toBe(3)
    type('Exposure', '1/4000')
    expect(screen.getByText(/Phone A said 1\/2000/)).toBeTruthy()
    press('Keep session')
    await waitFor(() => expect(host.data.sessions).toHaveLength(2))
    expect(host.data.sessions[0]!.camera).toMatchObject({
      name: 'Phone A',
      captureFps: 239.76,
      relativeUncertainty: 1e-4,
      exposureSeconds: 0.00025,
      takenFrom: { name: 'Phone A', exposureSeconds: 0.0005 },
    })
  })
})
