import { describe, expect, it } from 'vitest'
import type { Estimate } from '../../../../core/spin/estimate.ts'
import { observationsOf } from '../../../../core/spin/observations-of.ts'
import { fitSphere } from '../../../../core/spin/sphere/fit-sphere.ts'
import { marksOf } from '../truth.ts'

/** A ball whose logo goes behind it in every turn, marked without error; hidden from just before the rim on. */
const truth = marksOf({
  tiltDeg: 75,
  frames: 40,
  rpm: 600,
  statedClickPx: 0.5,
  marks: [{ id: 'logo', symmetryOrder: 1, offsetShare: 0.8, startDeg: 20 }],
})
const isHidden = (index: number) => truth.frames[index]!.hidden !== undefined
/** Frames whose outline and marks are taken away before the fit: the model alone says where the logo is there. */
const unseen = [5, 11, 17, 23, 29, 35]

function modelled() {
  const marks = structuredClone(truth)
  for (const index of unseen) {
    marks.frames[index]!.outline = undefined
    marks.frames[index]!.seen = []
    marks.frames[index]!.hidden = []
  }
  const observed = observationsOf(marks)
  if (!('observations' in observed)) throw new Error(observed.reason)
  const estimate = fitSphere(observed.observations)
  if (!estimate.measured) throw new Error(estimate.reason)
  return (estimate as Estimate).modelled
}

describe('where a sphere fit draws a mark', () => {
  const drawn = modelled()
  const cases = truth.frames.map((frame, i) => ({ frame, model: drawn.find(one => one.frame === i)! }))
  it('there is one in every frame', () => {
    expect(drawn).toHaveLength(40)
    expect(
      truth.frames.some(frame => frame.hidden) && truth.frames.some(frame => frame.seen.length > 0),
    ).toBe(true)
  })
  it('where it was seen it is shown, within half a pixel', () => {
    for (const { frame, model } of cases) {
      const [seen] = frame.seen
      if (!seen || !('xPx' in seen) || unseen.includes(frame.index)) continue
      expect(model.hidden).toBe(false)
      expect(Math.hypot(model.xPx! - seen.xPx, model.yPx! - seen.yPx)).toBeLessThan(0.5)
    }
  })
  it('where it is behind the ball it is hidden, but for the last of the rim', () => {
    let behind = 0
    for (const { frame, model } of cases) {
      if (!frame.hidden || unseen.includes(frame.index)) continue
      const { xPx, yPx, radiusPx } = frame.outline!
      // Hidden from a tenth of the radius before the rim's plane on: √(1 − 0.1²) = 0.995 of the radius.
      if (Math.hypot(model.xPx! - xPx, model.yPx! - yPx) > 0.99 * radiusPx) continue
      behind++
      expect(model.hidden).toBe(true)
    }
    expect(behind).toBeGreaterThan(8)
  })
  it('in a frame without an outline it has a bearing, no place, and is hidden on the far side', () => {
    const ways = unseen.map(index => {
      const { frame, model } = cases[index]!
      expect([model.xPx, model.yPx]).toEqual([null, null])
      const [seen] = frame.seen
      if (seen && 'xPx' in seen) {
        const bearing = Math.atan2(seen.yPx - frame.outline!.yPx, seen.xPx - frame.outline!.xPx)
        expect(Math.cos(model.bearingRad - bearing)).toBeGreaterThan(0.999)
      }
      // Where it crosses the rim the truth's own rule, a tenth of the radius before, says otherwise.
      if ([index - 1, index + 1].some(other => isHidden(other) !== isHidden(index))) return null
      expect(model.hidden).toBe(isHidden(index))
      return model.hidden
    })
    expect(ways).toContain(true)
    expect(ways).toContain(false)
  })
})
