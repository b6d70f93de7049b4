import { writeFileSync } from 'node:fs'
import { afterAll, describe, expect, test } from 'vitest'
import { camerasDocumentSchema } from '../../../core/contract/cameras.ts'
import { focalCheckSchema } from '../../../core/contract/focal-check.ts'
import { planSchema } from '../../../core/contract/plan.ts'
import { problemSchema } from '../../../core/contract/problem.ts'
import { rateCheckSchema } from '../../../core/contract/rate-check.ts'
import { readoutCheckSchema } from '../../../core/contract/readout-check.ts'
import { filmed } from '../../core/planning/filmed.ts'
import { lineOnDisc } from '../../core/planning/scenes.ts'
import { marksOf } from '../../core/spin/truth.ts'
import { Clips, h264 } from '../media/clips.ts'
import { said } from './stand-in-world.ts'

const clips = new Clips()
afterAll(() => clips.remove())

const whorl = async (...words: string[]) => {
  const { code, out, err } = await said(words)
  return { code, out, error: err }
}

describe('whorl plan', () => {
  test('with --json prints whorl.plan/1, units mixed', async () => {
    const { code, out } = await whorl(
      ...[
        'plan',
        '--fps',
        '240',
        '--exposure',
        '0.5ms',
        '--rpm',
        '2330',
        '--distance',
        '6ft',
        '--ball',
        'tennis',
      ],
      ...[
        '--speed',
        '36km/h',
        '--picture',
        '1280x720',
        '--view',
        '50°',
        '--now',
        '1/500',
        '--f-number',
        '1.8',
        '--sensor-width',
        '7.6mm',
        '--json',
      ],
    )
    expect(code).toBe(0)
    const plan = planSchema.parse(JSON.parse(out))
    expect(plan.setUp).toMatchObject({ exposureSeconds: 0.0005, widthPx: 1280, speedMetresPerSecond: 10 })
    // 2330 rpm at 240 fps: 58.25° a frame, 6.1803 frames a turn (method's table).
    expect(plan.rotationPerFrameDeg).toBeCloseTo(58.25, 6)
    expect(plan.framesPerRevolution).toBeCloseTo(6.1803, 4)
    expect(plan.lightStops).toBeCloseTo(2, 9)
    expect(plan.sharp!.nearMetres).toBeLessThan(1.8288)
  })

  test('as words says what it understood, what limits and what helps', async () => {
    const { code, out } = await whorl('plan', '--exposure', '1/500', '--rpm', '2330')
    expect(code).toBe(0)
    expect(out).toContain('understood')
    expect(out).toContain('1/500')
    expect(out).toMatch(/instead of 1\/500/)
  })

  test.each([
    [['--exposure', '1/100'], 'longer than a frame'],
    [['--fps', '0'], 'a number above 0'],
    [['--distance', '2px'], 'a length above 0'],
    [['--ball', 'egg'], 'pickleball'],
    [['--picture', '1920'], '1920x1080'],
    [['--rpm', '1e9'], 'rpm cannot be used'],
    [['--f-number', '1.8'], '--sensor-width is missing'],
    [['--tilt', '120'], 'axisTiltDeg cannot be used'],
  ])('%j is refused with what would do', async (words, expected) => {
    const { code, error } = await whorl('plan', ...words)
    expect(code).toBe(2)
    expect(error).toContain(expected)
  })
})

describe('whorl check-rate', () => {
  test('a counter', async () => {
    const words = ['--counter', '1', '--steps', '5', '--frames', '1199', '--fps', '240', '--json']
    const { code, out } = await whorl('check-rate', ...words)
    expect(code).toBe(0)
    expect(rateCheckSchema.parse(JSON.parse(out)).captureFps).toBeCloseTo(239.8, 9)
  })

  test('a lamp in a clip: 100 flashes a second filmed at 239.76 as 240', async () => {
    const light = "geq=lum='110+8*sin(2*PI*100*N/239.76)':cb=128:cr=128"
    const path = clips.make(
      'lamp.mp4',
      ...['-f', 'lavfi', '-i', `color=c=gray:s=64x64:r=240:d=1,${light}`],
      ...h264('-crf', '10'),
    )
    const { code, out } = await whorl('check-rate', '--lamp', '100', '--fps', '240', path, '--json')
    expect(code).toBe(0)
    expect(rateCheckSchema.parse(JSON.parse(out)).captureFps / 239.76).toBeCloseTo(1, 3)
  })

  test('a turntable in a clip: 78.26 rpm filmed at 239.76 as 240', async () => {
    const blots =
      'drawbox=x=40:y=30:w=30:h=24:color=black:t=fill,drawbox=x=90:y=70:w=20:h=14:color=white:t=fill'
    const path = clips.make(
      'table.mp4',
      ...['-f', 'lavfi', '-i', 'color=c=gray:s=160x120:r=240:d=2'],
      ...['-vf', `${blots},rotate=a='2*PI*78.26/60*n/239.76':c=gray`],
      ...h264('-crf', '20'),
    )
    const { code, out } = await whorl('check-rate', '--turntable', '78.26', '--fps', '240', path, '--json')
    expect(code).toBe(0)
    expect(rateCheckSchema.parse(JSON.parse(out)).captureFps / 239.76).toBeCloseTo(1, 3)
  })

  test('too few turns of a turntable: clear words, exit 1', async () => {
    const path = clips.path('table.marks.json')
    writeFileSync(path, JSON.stringify(marksOf({ rpm: 100 / 3, radiusPx: 200, clickPx: 1, frames: 24 })))
    const { code, out } = await whorl('check-rate', '--turntable', '33.333', path, '--json')
    expect(code).toBe(1)
    const problem = problemSchema.parse(JSON.parse(out))
    expect(problem.code).toBe('rate-not-checked')
    expect(problem.message).not.toBe('')
  })

  test.each([
    [['--counter', '1', '--lamp', '100'], 'Expected one of'],
    [[], 'Expected one of'],
    [['--counter', '1', '--steps', '5'], 'needs --frames'],
    [['--lamp', '100'], 'needs a file'],
    [['--turntable', '45', 'table.mp4'], 'needs --fps'],
  ])('%j is not understood', async (words, expected) => {
    const { code, error } = await whorl('check-rate', ...words)
    expect(code).toBe(2)
    expect(error).toContain(expected)
  })
})

describe('whorl check-readout', () => {
  test('a disc in a clip that was filmed and coded: 3 ms within 5 %', async () => {
    const camera = { widthPx: 160, heightPx: 90, frames: 80, fps: 240, readoutSeconds: 0.003 }
    const pictures = filmed(
      { ...camera, exposureSeconds: 1 / 2000, noise: 2, seed: 8 },
      lineOnDisc({ x: 82, y: 43, radius: 40 }, 12),
    )
    const raw = clips.path('disc.gray')
    writeFileSync(raw, Buffer.concat(pictures.map(picture => picture.data)))
    const path = clips.make(
      'disc.mp4',
      ...['-f', 'rawvideo', '-pix_fmt', 'gray', '-s', '160x90', '-r', '240', '-i', raw],
      ...h264('-crf', '20'),
    )
    const { code, out } = await whorl('check-readout', '--spin', '--fps', '240', path, '--json')
    expect(code).toBe(0)
    const check = readoutCheckSchema.parse(JSON.parse(out))
    expect(Math.abs(check.readoutSeconds / 0.003 - 1)).toBeLessThan(0.05)
    const told = await whorl('check-readout', '--spin', '--fps', '240', path)
    expect(told.out).toContain('on rpm')
    // Nothing in it flashes.
    const refused = await whorl('check-readout', '--edge', '--fps', '240', path, '--json')
    expect(refused.code).toBe(1)
    expect(problemSchema.parse(JSON.parse(refused.out)).code).toBe('readout-not-checked')
  })

  test.each([
    [['--lamp', '100', 'clip.mp4'], 'needs --fps'],
    [['--fps', '240', 'clip.mp4'], 'Expected one of'],
    [['--fps', '240', '--spin', '--edge', 'clip.mp4'], 'Expected one of'],
    [['--fps', '0', '--spin', 'clip.mp4'], 'a number above 0'],
  ])('%j is not understood', async (words, expected) => {
    const { code, error } = await whorl('check-readout', ...words)
    expect(code).toBe(2)
    expect(error).toContain(expected)
  })
})

describe('whorl check-focal', () => {
  test('a ball, with units mixed', async () => {
    const words = ['--diameter-px', '62', '--ball-diameter', '2.9in', '--distance', '6ft']
    const { code, out } = await whorl('check-focal', ...words, '--picture', '1920x1080', '--json')
    expect(code).toBe(0)
    const { focalLengthPx, standardUncertaintyPx } = focalCheckSchema.parse(JSON.parse(out))
    expect(focalLengthPx).toBeCloseTo((62 * 1.8288) / 0.07366, 0)
    expect(standardUncertaintyPx / focalLengthPx).toBeGreaterThan(0.01)
  })

  test('a field of view: 90° across is half the width', async () => {
    const { out } = await whorl('check-focal', '--view', '90°', '--picture', '1920x1080', '--json')
    expect(focalCheckSchema.parse(JSON.parse(out)).focalLengthPx).toBeCloseTo(960, 6)
  })

  test.each([
    [['--picture', '1920x1080'], 2, 'Expected one of'],
    [['--view', '60'], 2, '--picture is missing'],
    [['--view', '200', '--picture', '1920x1080'], 2, 'an angle'],
    [['--diameter-px', '62', '--distance', '2m', '--picture', '1920x1080'], 2, '--ball'],
    [['--view-width', '3m', '--distance', '0', '--picture', '1920x1080'], 2, 'a length above 0'],
    [['--view-width', '3mm', '--distance', '2m', '--picture', '1920x1080'], 1, 'field of view'],
  ])('%j is refused with what would do', async (words, expectedCode, expected) => {
    const { code, error } = await whorl('check-focal', ...words)
    expect(code).toBe(expectedCode)
    expect(error).toContain(expected)
  })
})

test('all say in their help what they take', async () => {
  for (const name of ['plan', 'check-rate', 'check-readout', 'check-focal']) {
    const { code, out } = await whorl(name, '--help')
    expect(code).toBe(0)
    expect(out).toContain('Example:')
  }
})

describe('a camera that is checked', () => {
  test('is made by its rate, takes readout and focal length, and is listed', async () => {
    const into = ['--save-to', 'Phone A', '--workspace', clips.path('cameras.sqlite')]
    const counter = ['--counter', '1', '--steps', '5', '--frames', '1199', '--fps', '240']
    expect((await whorl('check-focal', '--view', '60', '--picture', '1920x1080', ...into)).error).toContain(
      'no camera named',
    )
    const made = await whorl('check-rate', ...counter, ...into)
    expect(made.out).toContain('kept with the camera Phone A')
    // Capitals do not make another camera.
    const also = await whorl(
      'check-focal',
      '--view',
      '60',
      '--picture',
      '1920x1080',
      ...into.with(1, 'phone a'),
    )
    expect(also.out).toContain('kept with the camera Phone A')

    const { out } = await whorl('cameras', '--workspace', clips.path('cameras.sqlite'), '--json')
    const { cameras } = camerasDocumentSchema.parse(JSON.parse(out))
    expect(cameras).toHaveLength(1)
    expect(cameras[0]).toMatchObject({
      name: 'Phone A',
      nominalFps: 240,
      readout: null,
      exposureSeconds: null,
    })
    expect(cameras[0]!.rate).toMatchObject({ by: { way: 'counter', clip: null } })
    expect(cameras[0]!.rate!.captureFps).toBeCloseTo(239.8, 9)
    // 1920 px over 60°: 960/tan 30° = 1662.8 px (pinhole).
    expect(cameras[0]!.focal!.focalLengthPx).toBeCloseTo(960 / Math.tan(Math.PI / 6), 6)
    const told = await whorl('cameras', '--workspace', clips.path('cameras.sqlite'))
    expect(told.out).toMatch(/Phone A +240 fps +239\.800 ± 0\.\d+ fps +– +1663 ± \d+ px/)
  })
})
