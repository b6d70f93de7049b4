import { describe, expect, it } from 'vitest'
import { type PlanTexts, planRead, startTexts } from '../../../renderer/screens/plan/plan-fields.ts'

const read = (texts: Partial<PlanTexts>) => planRead({ ...startTexts, ...texts })

describe('the plan’s fields', () => {
  it('start as a set-up that can be planned', () => {
    expect(read({}).problems).toEqual({})
    expect(read({}).setUp).not.toBeNull()
  })

  it('take mixed units and say what they understood', () => {
    const { setUp, notes } = read({ exposure: '0.5 ms', distance: '6 ft', speed: '36 km/h', ball: 'tennis' })
    expect(setUp).toMatchObject({
      exposureSeconds: 0.0005,
      distanceMetres: 6 * 0.3048,
      speedMetresPerSecond: 10,
    })
    expect(notes.exposure).toContain('1/2000')
    expect(notes.distance).toMatch(/1\.83.m/)
    expect(notes.ball).toContain('ITF')
  })

  it('a field of view is an angle, a width at the ball, or pixels', () => {
    expect(read({ view: '90°' }).setUp!.focalLengthPx).toBeCloseTo(960, 6)
    expect(read({ view: '4 m wide', distance: '2 m' }).setUp!.focalLengthPx).toBeCloseTo(960, 6)
    expect(read({ view: '960 px' }).setUp!.focalLengthPx).toBe(960)
  })

  it.each<[keyof PlanTexts, string]>([
    ['fps', '0'],
    ['fps', '-240'],
    ['exposure', ''],
    ['exposure', '1/50'],
    ['distance', '5 cm'],
    ['distance', 'far'],
    ['picture', '1920'],
    ['view', '180°'],
    ['ball', 'an egg'],
    ['rpm', '1e9'],
    ['speed', '400 m/s'],
    ['frames', '2.5'],
    ['axisTilt', '120°'],
    ['readout', '40 ms'],
  ])('%s “%s” is refused at its field', (field, text) => {
    const { setUp, problems } = read({ [field]: text })
    expect(setUp).toBeNull()
    expect(problems[field]).toBeTruthy()
  })
})
