import { describe, expect, it } from 'vitest'
import { degOfRad, radOfDeg } from '../../../core/units/angle.ts'
import { kilogramsOfText } from '../../../core/units/mass.ts'
import {
  degPerFrameOfRpm,
  framesPerRevolutionOfRpm,
  radPerSecondOfRpm,
  rpmOfDegPerFrame,
  rpmOfRadPerSecond,
  rpmOfText,
} from '../../../core/units/rate.ts'
import { senseOfRate, signOfSense } from '../../../core/units/sense.ts'

describe('units', () => {
  it('60 rpm is one turn a second: 2π rad/s', () => {
    expect(radPerSecondOfRpm(60)).toBeCloseTo(2 * Math.PI, 12)
    expect(rpmOfRadPerSecond(2 * Math.PI)).toBeCloseTo(60, 12)
  })
  it('a half turn is 180° and π', () => {
    expect(radOfDeg(180)).toBeCloseTo(Math.PI, 12)
    expect(degOfRad(Math.PI)).toBeCloseTo(180, 12)
  })
  it('2400 rpm at 240 fps is 60° a frame and six frames a turn', () => {
    expect(degPerFrameOfRpm(2400, 240)).toBe(60)
    expect(rpmOfDegPerFrame(60, 240)).toBe(2400)
    expect(framesPerRevolutionOfRpm(2400, 240)).toBe(6)
  })
  it('clockwise on the screen is positive; a ball that stands still has no sense', () => {
    expect([senseOfRate(3), senseOfRate(-3), senseOfRate(0)]).toEqual([
      'clockwise',
      'counter-clockwise',
      null,
    ])
    expect([signOfSense('clockwise'), signOfSense('counter-clockwise')]).toEqual([1, -1])
  })
  it.each([
    ['33 1/3', 100 / 3],
    ['45', 45],
    ['78.26 rpm', 78.26],
    ['0', null],
    ['-45', null],
    ['1/0', null],
    ['33 1/0', null],
    ['fast', null],
  ])('a turntable at %s turns %d times a minute', (text, rpm) => {
    if (rpm === null) expect(rpmOfText(text)).toBeNull()
    else expect(rpmOfText(text)).toBeCloseTo(rpm, 12)
  })
  // 1 oz = 28.349523125 g, international yard and pound agreement, 1959.
  it.each([
    ['24 g', 0.024],
    ['1 oz', 0.028349523125],
    ['0.024 kg', 0.024],
    ['24', null],
    ['0 g', null],
    ['24 m', null],
  ])('a ball of %s has %d kg', (text, kilograms) => {
    if (kilograms === null) expect(kilogramsOfText(text)).toBeNull()
    else expect(kilogramsOfText(text)).toBeCloseTo(kilograms, 15)
  })
})
