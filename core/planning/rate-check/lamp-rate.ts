import { notFound, type RateFound } from './rate-found.ts'

const fewestFrames = 32
/** The lamp's wave must stand out of the scatter by this amplitude over one standard deviation. */
const leastStrength = 6

/**
 * Cycles a frame that something at so many hertz seems to make: its share beyond whole cycles, folded to at most
 * one half. 0 is standing still: 216 bars at 33 1/3 rpm pass 120 times a second, as a 60 Hz lamp flashes.
 */
export function apparentCycles(hertz: number, fps: number): number {
  const cycles = hertz / fps
  return Math.abs(cycles - Math.round(cycles))
}

/**
 * The capture rate from a lamp's flicker: mains lamps flash at twice the mains' frequency. The brightness of each
 * frame makes a wave; of the rates that fold the lamp's frequency to it, the one nearest the nominal is taken.
 *
 * Uncertainty: least variance of a tone's frequency (Rife and Boorstyn, IEEE Trans. Inf. Theory 20 (1974) 591),
 * and the mains' own, 0.05 Hz of 50 (common practice, no source).
 *
 * @param brightness one a frame, even in time
 */
export function lampRate(
  brightness: readonly number[],
  lampHertz: number,
  nominalFps: number,
  mainsRelative = 0.001,
): RateFound {
  const n = brightness.length
  if (n < fewestFrames)
    return notFound(
      `${n} frames are too few to see a wave.`,
      `Film the lamp for ${fewestFrames} frames at least; a second is good.`,
    )
  const tone = toneOf(brightness)
  if (!(tone.amplitude > leastStrength * tone.scatter * Math.sqrt(2 / n)))
    return notFound(
      'The brightness shows no wave.',
      'Film a lamp that runs on mains, with a short exposure, so that the picture grows bright and dark.',
    )
  const beats = Array.from({ length: 40 }, (_, k) => [k + tone.cycles, k - tone.cycles]).flat()
  const rates = beats.filter(cycles => cycles > 1e-6).map(cycles => lampHertz / cycles)
  const off = (fps: number) => Math.abs(Math.log(fps / nominalFps))
  const captureFps = rates.reduce((best, fps) => (off(fps) < off(best) ? fps : best))
  const bound = (Math.sqrt(24 / (n * (n * n - 1))) * tone.scatter) / (2 * Math.PI * tone.amplitude)
  return {
    measured: true,
    captureFps,
    relativeUncertainty: Math.hypot((bound * captureFps) / lampHertz, mainsRelative),
    remarks: [`The light goes through ${tone.cycles.toFixed(4)} cycles a frame.`],
  }
}

/** The strongest tone in a series: cycles a sample (0 to ½), amplitude, and the scatter about it. */
function toneOf(values: readonly number[]) {
  const n = values.length
  const mean = values.reduce((sum, value) => sum + value, 0) / n
  const power = (cycles: number) => {
    let [c, s] = [0, 0]
    values.forEach((value, i) => {
      // Tapered by a Hann window: neighbouring harmonics leak less.
      const v = (value - mean) * (1 - Math.cos((2 * Math.PI * (i + 0.5)) / n))
      c += v * Math.cos(2 * Math.PI * cycles * i)
      s += v * Math.sin(2 * Math.PI * cycles * i)
    })
    return Math.hypot(c, s) / n
  }
  const step = 1 / (8 * n)
  let best = { cycles: 0, height: 0 }
  for (let cycles = 1 / n; cycles <= 0.5; cycles += step) {
    const height = power(cycles)
    if (height > best.height) best = { cycles, height }
  }
  let half = step
  while (half > 1e-9) {
    const [low, high] = [power(best.cycles - half), power(best.cycles + half)]
    if (low > best.height) best = { cycles: best.cycles - half, height: low }
    else if (high > best.height) best = { cycles: best.cycles + half, height: high }
    else half /= 2
  }
  const amplitude = 2 * best.height
  const whole = values.reduce((sum, value) => sum + (value - mean) ** 2, 0) / n
  return { cycles: best.cycles, amplitude, scatter: Math.sqrt(Math.max(whole - amplitude ** 2 / 2, 0)) }
}
