import { describe, expect, it } from 'vitest'
import { seededRandom } from '../../../core/numerics/seeded-random.ts'
import { turningRate } from '../../../core/planning/rate-check/turning-rate.ts'

const [widthPx, heightPx] = [30, 20]

/** A disc with soft blots seen at a slant, `rotations` times the same within a turn, in noise and wavering light. */
function filmed(given: {
  fps: number
  rpm: number
  frames: number
  noise?: number
  repeats?: number
  waver?: number
}) {
  const { fps, rpm, frames, noise = 2, repeats = 1, waver = 0 } = given
  const chance = seededRandom(5)
  const blots = Array.from({ length: 5 }, () => ({
    r: 3 + 9 * chance(),
    at: 2 * Math.PI * chance(),
    dark: 40 + 60 * chance(),
  }))
  return Array.from({ length: frames }, (_, frame) => {
    const turned = (2 * Math.PI * rpm * frame) / (60 * fps)
    const light = 150 + waver * Math.sin(frame)
    return Uint8Array.from({ length: widthPx * heightPx }, (_, i) => {
      const [x, y] = [(i % widthPx) - 15, (Math.floor(i / widthPx) - 10) * 1.5]
      let value = light + noise * (chance() + chance() - 1) * 2.45
      for (const { r, at, dark } of blots)
        for (let k = 0; k < repeats; k++) {
          const angle = at + turned + (2 * Math.PI * k) / repeats
          value -= dark * Math.exp(-((x - r * Math.cos(angle)) ** 2 + (y - r * Math.sin(angle)) ** 2) / 6)
        }
      return Math.min(255, Math.max(0, Math.round(value)))
    })
  })
}
const known = { knownRpm: 100 / 3, knownRelative: 0, nominalFps: 240 }

describe('a turntable', () => {
  // 33 1/3 and 45 rpm: IEC 60098, from memory; the truth is the rate at which the pictures were made.
  it.each([
    { fps: 239.76, rpm: 100 / 3, frames: 1000 },
    { fps: 119.7, rpm: 45, frames: 700 },
    { fps: 231, rpm: 78.26, frames: 900, noise: 6, waver: 10 },
  ])('filmed at $fps fps gives that rate within 0.02 %, and says how surely', ({ fps, ...disc }) => {
    const nominalFps = fps > 200 ? 240 : 120
    const { found } = turningRate(filmed({ fps, ...disc }), {
      knownRpm: disc.rpm,
      knownRelative: 0,
      nominalFps,
    })
    if (!found.measured) throw new Error(found.reason)
    expect(Math.abs(found.captureFps / fps - 1)).toBeLessThan(2e-4)
    expect(Math.abs(found.captureFps / fps - 1)).toBeLessThan(4 * found.relativeUncertainty)
    expect(found.relativeUncertainty).toBeLessThan(2e-4)
  })

  it('that looks the same after half a turn is taken at the whole turn that fits the camera', () => {
    const { found } = turningRate(filmed({ fps: 239, rpm: 100 / 3, frames: 1000, repeats: 2 }), known)
    expect(found.measured && found.captureFps).toBeCloseTo(239, 0)
  })

  it('known to a per mille is no better than that', () => {
    const { found } = turningRate(filmed({ fps: 240, rpm: 100 / 3, frames: 950 }), {
      ...known,
      knownRelative: 1e-3,
    })
    expect(found.measured && found.relativeUncertainty).toBeGreaterThanOrEqual(1e-3)
  })

  it('with less than a turn, with nothing on it, or far too fast, is refused with a way out', () => {
    const short = turningRate(filmed({ fps: 240, rpm: 100 / 3, frames: 300 }), known)
    expect(short.found).toMatchObject({ measured: false, reason: expect.stringContaining('0.69 turns') })
    const bare = Array.from({ length: 900 }, () => new Uint8Array(64).fill(9))
    expect(turningRate(bare, known).found).toMatchObject({
      measured: false,
      reason: expect.stringContaining('repeat'),
    })
    const fast = turningRate(bare, { ...known, knownRpm: 5000 })
    expect(fast.found).toMatchObject({ measured: false, reason: expect.stringContaining('2.9 frames') })
  })
})
