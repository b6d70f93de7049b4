import { describe, expect, test } from 'vitest'
import { dot, unit, type Vector } from '../../../core/geometry/vector.ts'
import { type ShadeSample, shadeAt, shadeOf } from '../../../core/vision/find/shell-shade.ts'

const lamp = unit([-0.6, -0.7, -0.4])
/** A matt ball in the light of one far lamp and of a sky (Lambert's law); beyond the rim nothing is asked. */
const lightAt = (x: number, y: number): number => {
  const place: Vector = [x, y, -Math.sqrt(1 - x * x - y * y)]
  return 0.15 - 0.05 * y + 0.6 * Math.max(0, dot(place, lamp))
}
/** Places of the disc out to 0.93 of its radius, a grid of them in each of 20 frames, each frame's shifted. */
function samples(light: (x: number, y: number, frame: number) => number, sweepX = 0): ShadeSample[] {
  return Array.from({ length: 20 }, (_, frame) => {
    const shift = frame / 200
    const places: ShadeSample[] = []
    for (let y = -0.93 + shift; y < 0.93; y += 0.11)
      for (let x = -0.93 + shift; x < 0.93; x += 0.11)
        if (Math.hypot(Math.abs(x) + sweepX, y) < 0.93)
          places.push({ x, y, sweepX, sweepY: 0, light: light(x, y, frame) })
    return places
  }).flat()
}
const errorsAt = (shade: NonNullable<ReturnType<typeof shadeOf>>, out: number) =>
  Array.from({ length: 24 }, (_, k) => {
    const turn = (2 * Math.PI * k) / 24
    const [x, y] = [out * Math.cos(turn), out * Math.sin(turn)]
    return Math.abs(shadeAt(shade, x, y) - lightAt(x, y))
  })

/** What swept-disc.ts counts on: the shell's light to a tenth of the brightest. */
const tenth = 0.1 * lightAt(-0.6, -0.7)

describe('the shade of a shell', () => {
  test.each([0.3, 0.6, 0.9, 0.99])(
    'is found at %d of the radius, though nothing was seen beyond 0.93',
    out => {
      expect(Math.max(...errorsAt(shadeOf(samples(lightAt))!, out))).toBeLessThan(tenth)
    },
  )

  test('is the shell’s, not that of holes that pass over a fifth of it', () => {
    const isHole = (x: number, y: number, frame: number) =>
      (Math.round(9 * x) + Math.round(9 * y) + frame) % 5 === 0
    const holed = shadeOf(samples((x, y, frame) => (isHole(x, y, frame) ? 0.05 : lightAt(x, y))))!
    for (const out of [0.3, 0.6, 0.9, 0.99]) expect(Math.max(...errorsAt(holed, out))).toBeLessThan(tenth)
  })

  test('is sharp again where the ball moved while the shutter was open', () => {
    const sweepX = 0.3
    const moments = Array.from({ length: 21 }, (_, k) => k / 10 - 1)
    const swept = samples((x, y) => {
      const seen = moments.map(at => x - at * sweepX).filter(u => Math.hypot(u, y) < 1)
      return seen.reduce((sum, u) => sum + lightAt(u, y), 0) / seen.length
    }, sweepX)
    const untold = swept.map(sample => ({ ...sample, sweepX: 0 }))
    const sum = (errors: number[]) => errors.reduce((all, error) => all + error, 0)
    const [told, blurred] = [errorsAt(shadeOf(swept)!, 0.9), errorsAt(shadeOf(untold)!, 0.9)]
    expect(Math.max(...told)).toBeLessThan(tenth)
    expect(sum(told)).toBeLessThan(sum(blurred))
  })

  test('is none where only a part of the disc was seen', () => {
    expect(shadeOf(samples(lightAt).filter(({ x, y }) => Math.hypot(x - 0.5, y) < 0.2))).toBeNull()
  })
})
