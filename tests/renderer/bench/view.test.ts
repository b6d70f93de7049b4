import { describe, expect, it } from 'vitest'
import {
  ballView,
  shownPart,
  toPicture,
  toScreen,
  wholeView,
} from '../../../renderer/screens/bench/picture/view.ts'

const stage = { width: 514, height: 370 }

describe('the ball on the stage', () => {
  it('stands in the middle at the same size, wherever and however large it is in the picture', () => {
    for (const outline of [
      { xPx: 12, yPx: 500, radiusPx: 11 },
      { xPx: 901.5, yPx: 33.25, radiusPx: 74 },
    ]) {
      const view = ballView(outline, stage, 140)
      expect(toScreen(view, outline.xPx, outline.yPx)).toEqual({ x: 257, y: 185 })
      const rim = toScreen(view, outline.xPx, outline.yPx - outline.radiusPx)
      expect(rim.x).toBeCloseTo(257, 9)
      expect(rim.y).toBeCloseTo(185 - 140, 9)
    }
  })

  it('gives back the picture pixel that was pointed at', () => {
    const view = ballView({ xPx: 321.7, yPx: 96.4, radiusPx: 36.9 }, stage, 141.3)
    const there = toScreen(view, 333.25, 80.5)
    const back = toPicture(view, there)
    expect(back.xPx).toBeCloseTo(333.25, 9)
    expect(back.yPx).toBeCloseTo(80.5, 9)
  })

  it('shows a part of the picture of the stage’s own shape, beyond the picture’s edge too', () => {
    const view = ballView({ xPx: 5, yPx: 5, radiusPx: 20 }, stage, 100)
    const part = shownPart(view)
    expect(part.width / part.height).toBeCloseTo(514 / 370, 9)
    expect(part.x).toBeCloseTo(5 - 514 / 5 / 2, 9)
  })

  it('shows a whole picture from edge to edge on the narrower side', () => {
    const view = wholeView({ width: 960, height: 540 }, stage)
    expect(toScreen(view, 0, 270).x).toBeCloseTo(0, 9)
    expect(toScreen(view, 960, 270).x).toBeCloseTo(514, 9)
    expect(toScreen(view, 480, 0).y).toBeGreaterThan(0)
  })
})
