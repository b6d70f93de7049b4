/** Where between two beats the first time may lie; the step is fine beside any tick worth the name. */
const offsetsTried = 16

/**
 * The times of an even clock of `fps` behind timestamps that were rounded to a tick, or null when no such
 * clock fits them (the frames really were uneven).
 *
 * A sensor runs evenly; at 240 fps a file that counts in 1/600 s writes gaps of 2 and 3 ticks. Taken at
 * their word such times add a jitter that is not there, and seem to tell aliases apart that they cannot.
 * They agree with an even clock when all deviations from it lie within one tick, wherever rounding cut.
 * Gaps of dropped frames stay: each time goes to a beat of its own, by the frames' numbers where these
 * agree (a tick may be nearly as long as a frame), else to the nearest.
 */
export function evenClock(
  timesSeconds: readonly number[],
  frameNumbers: readonly number[],
  fps: number,
  tickSeconds: number,
): number[] | null {
  const first = timesSeconds[0] ?? 0
  const numbered = frameNumbers.map(number => number - (frameNumbers[0] ?? 0))
  const byOffset = Array.from({ length: offsetsTried }, (_, k) => {
    const offset = k / offsetsTried - 0.5
    return timesSeconds.map(t => Math.round((t - first) * fps + offset))
  })
  for (const beats of [numbered, ...byOffset]) {
    const deviations = timesSeconds.map((t, i) => t - first - beats[i]! / fps)
    const [least, most] = [Math.min(...deviations), Math.max(...deviations)]
    const rises = beats.every((beat, i) => i === 0 || beat > beats[i - 1]!)
    if (rises && most - least <= tickSeconds * (1 + 1e-6) + 1e-9)
      return beats.map(beat => first + (least + most) / 2 + beat / fps)
  }
  return null
}

/**
 * The step that times were rounded to, where it shows: they all are whole milliseconds or 1/600 s, and
 * the step is not small beside a frame. Null otherwise.
 */
export function tickThatShows(timesSeconds: readonly number[], fps: number): number | null {
  const isWhole = (t: number, tick: number) => Math.abs(t / tick - Math.round(t / tick)) < 1e-4
  const shows = (tick: number) => tick * fps > 0.02 && timesSeconds.every(t => isWhole(t, tick))
  return timesSeconds.length > 2 ? ([1 / 600, 1 / 1000].find(shows) ?? null) : null
}
