import { describe, expect, it } from 'vitest'
import { countedReading } from '../../../core/spin/count.ts'
import { readMarks } from '../../../core/spin/read-marks.ts'
import { marksOf } from './truth.ts'

describe('counting', () => {
  // Common practice, no source: at 240 fps six frames a turn read 2400 rpm, seven 2057.
  it('six frames a turn at 240 fps read 2400 rpm, seven 2057', () => {
    expect(countedReading(1, 6, 240).rpm).toBe(2400)
    expect(countedReading(1, 7, 240).rpm).toBeCloseTo(2057, 0)
  })
  it('four turns in 25 frames lie between 60·f·k/(n+1) and 60·f·k/(n−1)', () => {
    const { rpm, hardLowRpm, hardHighRpm, lowRpm, highRpm } = countedReading(4, 25, 240)
    expect([rpm, hardLowRpm, hardHighRpm]).toEqual([2304, (60 * 240 * 4) / 26, (60 * 240 * 4) / 24])
    // ±(1 − √0.05) frame holds 95 %.
    expect(lowRpm).toBeCloseTo((60 * 240 * 4) / 25.77639, 2)
    expect(highRpm).toBeCloseTo((60 * 240 * 4) / 24.22361, 2)
  })
  it('one frame a turn has no upper limit', () => {
    expect(countedReading(1, 1, 60).hardHighRpm).toBeNull()
  })
  it('stands beside a reading with as many whole turns as the window holds', () => {
    // 2330 rpm at 240 fps: 6.18 frames a turn, so 23 frames hold three turns in 18.54, judged 19.
    expect(readMarks(marksOf({ frames: 24 })).counted).toMatchObject({ turns: 3, frames: 19 })
  })
  it('has nothing to say where the mark does not come round', () => {
    expect(readMarks(marksOf({ frames: 6, rpm: 900 })).counted).toBeNull()
  })
})
